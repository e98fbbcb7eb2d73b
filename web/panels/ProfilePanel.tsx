import { createMemo, For, Show } from 'solid-js'
import type { PlacedInstrument, SiteDocument } from '#contract/site-document.ts'
import { depthProfile } from '../queries/depth-profile.ts'
import { addProfileDate, profileDates, removeProfileDate } from '../state/profile-dates.ts'
import { lookAlong, profileAxes, profileAxis, showStress, stressShown } from '../state/profile-look.ts'
import { selectedInstrument, selectedPoint, selectPoint } from '../state/selection.ts'
import { statesAtClock } from '../state/series-states.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { DepthProfile } from '../views/depth-profile/DepthProfile.tsx'
import {
  askedSeries,
  type ProfileAxis,
  profileFromSite,
  profileQuestion,
} from '../views/depth-profile/profile-from-site.ts'
import type { DepthProfileProps } from '../views/depth-profile/profile-props.ts'
import { asMeasured } from './as-measured.ts'
import { createAnswer } from './create-answer.ts'

/** Values by depth of the selected string, at the clock and at the dates that were added. */
export function ProfilePanel() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const subject = createMemo(() => {
    const document = siteDocument()
    const instrument = selectedInstrument()
    // A string that cannot be turned to the way last looked at is shown along A.
    const question =
      document && instrument
        ? (profileQuestion(document, instrument, profileAxis()) ?? profileQuestion(document, instrument))
        : null
    return document && instrument && question ? { document, instrument, question } : null
  })
  const asked = createAnswer(() => {
    const at = clockEpochMs()
    const on = subject()
    if (!on || at === null) return null
    const moments = [
      { heading: 'At the clock', atEpochMs: at },
      ...profileDates().map((date) => ({ heading: formatShortInstant(date, zone()), atEpochMs: date })),
    ]
    const query = depthProfile({
      atEpochMs: moments.map((moment) => moment.atEpochMs),
      ...askedSeries(on.question),
    })
    return { ...query, moments, subject: on }
  })
  const shown = (): DepthProfileProps | null => {
    const on = subject()
    const at = clockEpochMs()
    if (!on || at === null) return null
    const answered = asked.answer()
    const fits = answered?.question.subject === on ? answered : null
    const props = profileFromSite({
      ...on,
      moments: fits?.question.moments ?? [{ heading: 'At the clock', atEpochMs: at }],
      columns: fits?.columns ?? null,
      states: statesAtClock()?.states ?? new Map(),
      selectedPoint: selectedPoint()?.id ?? null,
      remarks: [...asMeasured(), ...asked.remarks()],
    })
    return stressShown() ? props : { ...props, stresses: null }
  }
  return (
    <Show
      when={shown()}
      fallback={
        <p class="waiting">
          Select a piezometer, an extensometer or an in-place inclinometer to see its values by depth.
        </p>
      }
    >
      {(props) => (
        <div class="view-panel">
          <fieldset class="chips" aria-label="Dates drawn">
            <button type="button" onClick={() => addProfileDate(clockEpochMs() ?? 0)}>
              Keep the clock’s date
            </button>
            <button type="button" onClick={() => print()}>
              Print
            </button>
            <Show when={selectedInstrument()?.kind === 'piezometer'}>
              <button type="button" aria-pressed={stressShown()} onClick={() => showStress(!stressShown())}>
                Effective stress
              </button>
            </Show>
            <For each={profileDates()}>
              {(date) => (
                <button
                  type="button"
                  aria-label={`Take away ${formatShortInstant(date, zone())}`}
                  onClick={() => removeProfileDate(date)}
                >
                  {formatShortInstant(date, zone())} ✕
                </button>
              )}
            </For>
            <Show when={selectedInstrument()?.kind.endsWith('-inclinometer')}>
              <For each={waysOf(subject())}>
                {(name) => (
                  <button type="button" aria-pressed={profileAxis() === name} onClick={() => lookAlong(name)}>
                    {axisNames[name]}
                  </button>
                )}
              </For>
            </Show>
          </fieldset>
          <DepthProfile shown={props} onSelectPoint={(point) => selectPoint(point)} />
        </div>
      )}
    </Show>
  )
}

const axisNames: Readonly<Record<ProfileAxis, string>> = {
  a: 'Axis A',
  b: 'Axis B',
  east: 'East',
  north: 'North',
}

/** The ways in which a casing can be looked at: east and north only where both axes are known. */
const waysOf = (
  on: { readonly document: SiteDocument; readonly instrument: PlacedInstrument } | null,
): readonly ProfileAxis[] =>
  on
    ? profileAxes.filter(
        (way) => way === 'a' || way === 'b' || profileQuestion(on.document, on.instrument, way) !== null,
      )
    : []
