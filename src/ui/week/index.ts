/** The Week screen. */
export { WeekScreen } from './week-screen.tsx';
