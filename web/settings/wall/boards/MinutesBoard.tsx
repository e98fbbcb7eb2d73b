import { createMemo, createSignal, Show } from 'solid-js'
import type { MinuteList } from '#contract/meetings.ts'
import type { Minute } from '#domain/meeting/minute.ts'
import { sayDay } from '#domain/meeting/site-day.ts'
import { minuteGroups } from '../../../derived/meeting/minute-groups.ts'
import { askServer, sentenceOf } from '../../../state/ask-server.ts'
import { meeting } from '../../../state/meeting.ts'
import { sitePath } from '../../../state/open-site.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { formatShortInstant } from '../../../ui/format-instant.ts'
import { sync } from '../../../ui/sync.ts'
import { Nothing } from './Nothing.tsx'
import { type BoardRow, RowPages } from './RowPages.tsx'

/** Actions that meetings agreed on: past their day, open, done; and what this one noted. */
export function MinutesBoard() {
  const [known, setKnown] = createSignal<MinuteList | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  sync(
    () => siteDocument()?.facts.id,
    (site) => {
      if (site !== undefined)
        askServer<MinuteList>(sitePath(site, '/minutes')).then(setKnown, (cause) =>
          setTrouble(sentenceOf(cause)),
        )
    },
  )
  const rows = createMemo((): readonly BoardRow[] => {
    const list = known()
    if (!list) return []
    const groups = minuteGroups(list.minutes, meeting()?.id ?? 0, list.today)
    const group = (heading: string, minutes: readonly Minute[], presses = false): readonly BoardRow[] =>
      minutes.length === 0
        ? []
        : [
            { heading: `${heading}: ${minutes.length}`, cells: [] },
            ...minutes.map((minute) => ({ cells: cellsOf(minute, zone()), presses })),
          ]
    return [
      ...group('Past their day', groups.overdue, true),
      ...group('Open', groups.open),
      ...group('Done', groups.done),
      ...group('Given up', groups.dropped),
      ...group('Noted in this meeting', groups.notes),
    ]
  })
  return (
    <div class="board-table">
      <Show
        when={trouble() === null}
        fallback={
          <Nothing
            missing={`The minutes could not be had: ${trouble()}`}
            concluded="Which actions are open is not known here."
          />
        }
      >
        <Show when={known()} fallback={<p class="board-nothing">The minutes are being fetched …</p>}>
          <Show
            when={rows().length > 0}
            fallback={
              <Nothing
                missing="No action is on record."
                concluded="That does not mean that nothing was agreed elsewhere."
              />
            }
          >
            <p class="board-said">
              As on record on {sayDay(known()?.today ?? '')}; readings on the other boards are of the cut-off.
            </p>
            <RowPages
              caption="Actions and minutes"
              headings={['What', 'Where', 'Who', 'By', 'How it stands']}
              shares={[37, 14, 17, 13, 19]}
              rows={rows()}
            />
          </Show>
        </Show>
      </Show>
    </div>
  )
}

function cellsOf({ kind, text, places, owner, dueOn, entries }: Minute, zone: string): readonly string[] {
  const last = entries.at(-1)
  const said = last
    ? `${words[last.standing]}, ${formatShortInstant(last.atEpochMs, zone)}${last.note === '' ? '' : `: ${last.note}`}`
    : 'open'
  return [
    text,
    places.length === 0 ? 'the site' : places.join(', '),
    owner ?? '–',
    dueOn === null ? '–' : sayDay(dueOn),
    kind === 'note' ? '–' : said,
  ]
}

const words = { open: 'open', done: 'done', dropped: 'given up' } as const
