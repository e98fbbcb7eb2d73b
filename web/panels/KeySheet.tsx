import { For } from 'solid-js'
import { sync } from '../ui/sync.ts'
import { shortcuts } from './shortcuts.ts'

/** The sheet of keys and gestures. */
export function KeySheet(props: { open: boolean; closed: () => void }) {
  const mount = (dialog: HTMLDialogElement) =>
    sync(
      () => props.open,
      (open) => {
        if (open && !dialog.open) dialog.showModal()
        if (!open && dialog.open) dialog.close()
      },
    )
  return (
    <dialog class="key-sheet" aria-label="Keys and gestures" ref={mount} onClose={() => props.closed()}>
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <For each={shortcuts}>
        {(group) => (
          <section>
            <h2>{group.where}</h2>
            <dl>
              <For each={group.list}>
                {(shortcut) => (
                  <div>
                    <dt>
                      <kbd>{shortcut.keys}</kbd>
                    </dt>
                    <dd>{shortcut.does}</dd>
                  </div>
                )}
              </For>
            </dl>
          </section>
        )}
      </For>
    </dialog>
  )
}
