/** The shop document, the plan and the view, as the screens read them. */
export { createAnswer } from './answer.ts';
export { Provide, useSession, useView } from './context.tsx';
export { exampleNames } from './demo.ts';
export { type Later, type Moved } from './moved.ts';
export { createQuiet } from './quiet.ts';
export { type Change, type Phase, type Trial } from './planning.ts';
export { makeSession, type Session } from './session.ts';
export { type Trouble } from './trouble.ts';
export { type KeptView, keptView, makeView, type Picked, type Theme, type View } from './view.ts';
