import { createSignal, For, Show } from 'solid-js'
import type { Layout } from '#contract/layout.ts'
import { hindranceTo } from '../state/permitted.ts'
import { RecordHistory } from './audit/RecordHistory.tsx'
import { LayoutForm } from './LayoutForm.tsx'

/** Layouts declared at this site, each in its latest version; a correction is declared as the next one. */
export function DeclaredLayouts(props: {
  layouts: readonly Layout[]
  loggers: readonly string[]
  declare: (layout: unknown, reason: string) => Promise<void>
}) {
  const [corrected, setCorrected] = createSignal<Layout | null>(null)
  const declare = async (layout: unknown, reason: string) => {
    await props.declare(layout, reason)
    setCorrected(null)
  }
  return (
    <details class="declared-layouts">
      <summary>Declared layouts: {props.layouts.length}</summary>
      <div class="scroll-across">
        <table class="plain">
          <thead>
            <tr>
              <th scope="col">Layout</th>
              <th scope="col">Version</th>
              <th scope="col">Shape</th>
              <th scope="col">Zone</th>
              <th scope="col">File names</th>
              <th scope="col">Correction</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.layouts}>
              {(layout) => (
                <tr>
                  <th scope="row">
                    {layout.title} <small>{layout.id}</small>
                  </th>
                  <td>{layout.version}</td>
                  <td>{layout.channels.shape}</td>
                  <td>{layout.time.zone}</td>
                  <td>
                    {layout.fileNamePattern === null ? (
                      'known by content'
                    ) : (
                      <code>{layout.fileNamePattern}</code>
                    )}
                  </td>
                  <td>
                    <button
                      type="button"
                      aria-label={`Correct ${layout.id}`}
                      disabled={hindranceTo('change-records') !== null}
                      title={hindranceTo('change-records') ?? ''}
                      onClick={() => setCorrected(layout)}
                    >
                      Correct
                    </button>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
      <RecordHistory
        of="these layouts"
        records={[{ kind: 'layout', keys: props.layouts.map(({ id }) => id) }]}
      />
      <Show when={corrected()} keyed>
        {(layout) => (
          <LayoutForm
            heading={`Declare version ${layout.version + 1} of ${layout.id}`}
            proposed={layout}
            loggers={props.loggers}
            declare={declare}
            open
          />
        )}
      </Show>
    </details>
  )
}
