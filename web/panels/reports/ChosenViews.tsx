import { createSignal, createUniqueId, For, Show } from 'solid-js'
import type { ReportManifest } from '#domain/report/report.ts'

type Views = ReportManifest['views']

/** Views of the page that are put into the report beside what it shows by itself. */
export function ChosenViews(props: { views: Views; write: (views: Views) => void }) {
  const field = createUniqueId()
  const [caption, setCaption] = createSignal('')
  const add = () => {
    const address = location.search.replace(/^\?/, '')
    props.write([...props.views, { address, caption: caption().trim() || 'A view of the page' }])
    setCaption('')
  }
  return (
    <fieldset class="report-views wide">
      <legend>Views</legend>
      <Show
        when={props.views.length > 0}
        fallback={
          <small>
            Open a section, a profile or readings over time as they are to be seen, come back, and add them.
          </small>
        }
      >
        <ul>
          <For each={props.views}>
            {(view, place) => (
              <li>
                {view.caption}{' '}
                <button
                  type="button"
                  aria-label={`Take away ${view.caption}`}
                  onClick={() => props.write(props.views.filter((_, at) => at !== place()))}
                >
                  ✕
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <label for={field}>Caption</label>
      <input
        id={field}
        type="text"
        maxlength="300"
        value={caption()}
        onInput={(event) => setCaption(event.currentTarget.value)}
      />
      <button type="button" disabled={props.views.length >= 20} onClick={add}>
        Add the view as it is
      </button>
    </fieldset>
  )
}
