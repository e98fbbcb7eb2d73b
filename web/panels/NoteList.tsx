import { For, Show } from 'solid-js'
import { notesShown } from '../state/note-marks.ts'
import { selectInstrument } from '../state/selection.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** Notes and damage reports of the plan as a table, those without a place too. */
export function NoteList() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const instrumentOf = (about: string | null) => {
    const { instrumentById, pointById } = siteLookup()
    if (about === null) return null
    return instrumentById.get(about)?.id ?? pointById.get(about)?.instrument ?? null
  }
  return (
    <details class="note-list">
      <summary>
        {notesShown().length} {notesShown().length === 1 ? 'field note' : 'field notes'} as a table
      </summary>
      <Show when={notesShown().length > 0} fallback={<p>None that this device knows of at the clock.</p>}>
        <table class="plain">
          <thead>
            <tr>
              <th scope="col">When, who</th>
              <th scope="col">About</th>
              <th scope="col">What</th>
            </tr>
          </thead>
          <tbody>
            <For each={notesShown()}>
              {(one) => (
                <tr>
                  <td>
                    {formatShortInstant(one.atEpochMs, zone())} {one.author}
                  </td>
                  <td>
                    <Show
                      when={instrumentOf(one.about)}
                      fallback={one.about ?? (one.eastingMetres === null ? 'no place known' : 'a place')}
                    >
                      {(instrument) => (
                        <button type="button" onClick={() => selectInstrument(instrument())}>
                          {one.about}
                        </button>
                      )}
                    </Show>
                  </td>
                  <td>
                    {one.kind === 'damage' ? '! Damage: ' : ''}
                    {one.text || 'no words'}
                    {one.attachments > 0 ? ` (files: ${one.attachments})` : ''}
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
    </details>
  )
}
