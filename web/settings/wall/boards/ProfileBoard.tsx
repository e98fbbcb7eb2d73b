import { createMemo, Show } from 'solid-js'
import { asMeasured } from '../../../panels/as-measured.ts'
import { createAnswer } from '../../../panels/create-answer.ts'
import { depthProfile } from '../../../queries/depth-profile.ts'
import { profileDates } from '../../../state/profile-dates.ts'
import { profileAxis, stressShown } from '../../../state/profile-look.ts'
import { selectedInstrument, selectedPoint, selectPoint } from '../../../state/selection.ts'
import { statesAtClock } from '../../../state/series-states.ts'
import { clockEpochMs } from '../../../state/site-clock.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { formatShortInstant } from '../../../ui/format-instant.ts'
import { DepthProfile } from '../../../views/depth-profile/DepthProfile.tsx'
import {
  askedSeries,
  profileFromSite,
  profileQuestion,
} from '../../../views/depth-profile/profile-from-site.ts'
import type { DepthProfileProps } from '../../../views/depth-profile/profile-props.ts'
import { Nothing } from './Nothing.tsx'
import { standsAtClock } from './stands-at-clock.ts'

/** Values by depth of the string that the board keeps, at the clock and at the dates kept with it. */
export function ProfileBoard() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const subject = createMemo(() => {
    const [document, instrument] = [siteDocument(), selectedInstrument()]
    const question =
      document && instrument
        ? (profileQuestion(document, instrument, profileAxis()) ?? profileQuestion(document, instrument))
        : null
    return document && instrument && question ? { document, instrument, question } : null
  })
  const asked = createAnswer(() => {
    const [at, on] = [clockEpochMs(), subject()]
    if (!on || at === null) return null
    const moments = [
      { heading: 'At the clock', atEpochMs: at },
      ...profileDates().map((date) => ({ heading: formatShortInstant(date, zone()), atEpochMs: date })),
    ]
    return {
      ...depthProfile({ atEpochMs: moments.map(({ atEpochMs }) => atEpochMs), ...askedSeries(on.question) }),
      moments,
      subject: on,
    }
  })
  const shown = (): DepthProfileProps | null => {
    const [at, on] = [clockEpochMs(), subject()]
    if (!on || at === null) return null
    const answered = asked.answer()
    const fits = answered?.question.subject === on ? answered : null
    const props = profileFromSite({
      ...on,
      moments: fits?.question.moments ?? [{ heading: 'At the clock', atEpochMs: at }],
      columns: fits?.columns ?? null,
      states: statesAtClock()?.states ?? new Map(),
      selectedPoint: selectedPoint()?.id ?? null,
      remarks: [...standsAtClock(), ...asMeasured(), ...asked.remarks()],
    })
    return stressShown() ? props : { ...props, stresses: null }
  }
  return (
    <Show
      when={shown()}
      fallback={
        <Nothing
          missing={
            selectedInstrument()
              ? `${selectedInstrument()?.id} has no values by depth.`
              : 'No string of measuring points is kept with this board.'
          }
          concluded="Nothing is drawn, and nothing can be concluded of movement or pressure at depth."
        />
      }
    >
      {(props) => <DepthProfile shown={props} onSelectPoint={(point) => selectPoint(point)} />}
    </Show>
  )
}
