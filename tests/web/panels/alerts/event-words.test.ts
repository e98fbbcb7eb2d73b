import { expect, test } from 'vitest'
import type { AlertHappening } from '#domain/alerts/alert-event.ts'
import type { AlertNaming } from '../../../../web/panels/alerts/alert-naming.ts'
import { crossingSentence } from '../../../../web/panels/alerts/crossing-words.ts'
import { eventSentence } from '../../../../web/panels/alerts/event-words.ts'
import { attempted, heldEpisode, raised, triggerLevel } from '../../../support/alert-events.ts'
import { series } from '../../state/small-site.ts'

const naming: AlertNaming = {
  levelNames: ['Level 1'],
  timeZone: 'UTC',
  seriesOf: (id) => series(3, id),
}
const at = Date.UTC(2027, 5, 1, 8)
const names: Readonly<Record<string, string>> = { ada: 'Ada Marsh' }
const said = (happening: AlertHappening, by: string | null = null) =>
  eventSentence({ by, happening }, naming, (id) => names[id] ?? id)

test.each<[AlertHappening, string | null, string]>([
  [
    raised(heldEpisode(at)),
    null,
    'Raised: SP-01, settlement reached Level 1, 22 mm or more, at 1 Jun 08:00.',
  ],
  [
    raised(heldEpisode(at), { late: true, untoldBecause: 'it is history.' }),
    null,
    'Raised: SP-01, settlement reached Level 1, 22 mm or more, at 1 Jun 08:00. Late: its readings came in too late for anybody to have been told in time. Nobody is told: it is history.',
  ],
  [
    {
      kind: 'raised',
      cause: { kind: 'drill', duty: 'night', reason: 'monthly' },
      late: false,
      untoldBecause: null,
    },
    'Bo',
    'Raised as an exercise for night by Bo: monthly.',
  ],
  [
    { kind: 'extent-changed', episode: heldEpisode(at, { leftAtEpochMs: at + 3_600_000 }) },
    null,
    'Later readings changed it: reached 1 Jun 08:00, left 1 Jun 09:00.',
  ],
  [attempted('delivered', { detail: '' }), null, 'Message to Ada Marsh by mail: handed over.'],
  [
    attempted('failed', { detail: 'refused', retryAtEpochMs: at, way: 'webhook', to: 'desk' }),
    null,
    'Message to Ada Marsh by webhook to desk: failed, tried again 1 Jun 08:00: refused',
  ],
  [
    {
      kind: 'escalated',
      step: 2,
      round: 3,
      because: 'not-acknowledged',
      takenAtEpochMs: at,
      recipients: ['ada', 'gone'],
    },
    null,
    'Step 2 of telling people, for the third time, because nobody took it up: Ada Marsh, gone.',
  ],
  [
    { kind: 'escalated', step: 1, round: 1, because: 'nobody-on', takenAtEpochMs: at, recipients: [] },
    null,
    'Step 1 of telling people, because nobody was on.',
  ],
  [{ kind: 'unreachable', duty: 'night' }, null, 'Nobody of night could be reached.'],
  [{ kind: 'verified', finding: 'false', note: 'mark knocked' }, 'Bo', 'Verified by Bo, false: mark knocked'],
  [{ kind: 'reopened', reason: 'moves again' }, 'Bo', 'Opened again by Bo: moves again'],
])('%o', (happening, by, words) => {
  expect(said(happening, by)).toBe(words)
})

test('a crossing that raised nothing is told with why', () => {
  const short = heldEpisode(at, { heldAtEpochMs: null, leftAtEpochMs: at + 20 * 60_000, peakValue: 22.4 })
  expect(crossingSentence(short, triggerLevel(), naming)).toBe(
    '1 Jun 08:00: SP-01, settlement reached Level 1, 22 mm or more, with at most 22.4 mm; left after 20 min, before it had stood long enough to be raised.',
  )
  expect(crossingSentence({ ...short, leftAtEpochMs: null }, undefined, naming)).toMatch(
    /no longer on record, was reached; it has not stood long enough to be raised yet\.$/,
  )
})
