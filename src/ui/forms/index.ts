/** Forms: every form, warm box and bench over time. */
export { FormsScreen } from './forms-screen.tsx';
