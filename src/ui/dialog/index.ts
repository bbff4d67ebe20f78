/** What lies over the screen until it is answered. */
export { Modal } from './modal.tsx';
