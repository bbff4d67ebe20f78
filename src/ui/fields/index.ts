/** Fields and sheets in which the shop is written down. */
import './fields.css';

export {
  ChoiceField,
  Group,
  KeysField,
  MeasureField,
  MinutesField,
  NativeField,
  NumberField,
  OptionalMeasureField,
  OptionalNumberField,
  TextField,
  TickField,
  type Choice,
} from './fields.tsx';
export { FaultList } from './fault-list.tsx';
export { SheetFoot } from './foot.tsx';
export { measureText, shownNumber, sizeText, storedNumber, unitOf, type Measure } from './measure.ts';
export { idFor } from './names.ts';
export { faultsAt, isUnder, joinPath, pathWords } from './places.ts';
export { Below, SheetOf, useFaults, useSheet } from './sheet.tsx';
export { minutesTyped, typedMinutes } from './time-typed.ts';
