/** The browser's own way of picking a file, for a shop file to open. */
import type { JSX } from 'solid-js';
import type { FileFault } from '../engine/index.ts';
import { useSession } from '../state/index.ts';

/** Unseen: whoever places it opens it by a button of their own, handed to `ready`. */
export const ShopPicker = (props: {
  readonly label: string;
  readonly ready: (pick: () => void) => void;
  /** Told of each file that was picked: what is wrong with it, nothing when it is open. */
  readonly picked: (faults: readonly FileFault[], fileName: string) => void;
}): JSX.Element => {
  const session = useSession();
  const open = async (file: File): Promise<void> => {
    const found = await file
      .text()
      .then((text) => session.openText(text, `open ${file.name}`))
      .catch((error: unknown) => [
        { path: file.name, found: '', message: error instanceof Error ? error.message : String(error) },
      ]);
    props.picked(found, file.name);
  };
  return (
    <input
      ref={(element) => props.ready(() => element.click())}
      class="unseen"
      type="file"
      tabindex="-1"
      aria-hidden="true"
      aria-label={props.label}
      accept=".json,application/json"
      onChange={(event) => {
        const file = event.currentTarget.files?.[0];
        // So that the same file, mended, can be picked again.
        event.currentTarget.value = '';
        if (file) void open(file);
      }}
    />
  );
};
