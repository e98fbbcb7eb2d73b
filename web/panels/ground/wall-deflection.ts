import { createMemo } from 'solid-js'
import type { PlacedInstrument } from '#contract/site-document.ts'
import type { InwardAxis } from '../../derived/ground/wall-readings.ts'
import { depthProfile } from '../../queries/depth-profile.ts'
import { lastOf } from '../../queries/often-read.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { profileFromSite, profileQuestion } from '../../views/depth-profile/profile-from-site.ts'
import type { DepthProfileProps } from '../../views/depth-profile/profile-props.ts'
import { createAnswer } from '../create-answer.ts'

const drawnAlong: Readonly<Record<InwardAxis['axis'], readonly string[]>> = {
  a: ['deflection', 'inclination-a'],
  b: ['deflection-b', 'inclination-b'],
}

/** Deflection of an inclinometer at the clock and at an earlier instant, as its profile by depth shows it; null until known. */
export function createWallDeflection(
  wanted: () => { readonly instrument: PlacedInstrument; readonly axis: InwardAxis['axis'] } | null,
  sinceEpochMs: () => number,
) {
  const subject = createMemo(() => {
    const [document, on] = [siteDocument(), wanted()]
    const question = document && on ? profileQuestion(document, on.instrument, on.axis) : null
    return document && on && question && drawnAlong[on.axis].includes(question.measure)
      ? { document, instrument: on.instrument, question }
      : null
  })
  const asked = createAnswer(() => {
    const [on, at] = [subject(), clockEpochMs()]
    if (!on || at === null) return null
    const moments = [
      { heading: 'At the clock', atEpochMs: at },
      { heading: 'Before', atEpochMs: sinceEpochMs() },
    ]
    const query = depthProfile({
      atEpochMs: moments.map(({ atEpochMs }) => atEpochMs),
      ...lastOf(on.question.series),
    })
    return { ...query, moments, subject: on }
  })
  const profile = createMemo((): DepthProfileProps | null => {
    const [answer, on] = [asked.answer(), subject()]
    const answered = answer?.question.subject
    const fits =
      answered?.instrument.id === on?.instrument.id && answered?.question.measure === on?.question.measure
    if (!answer || !fits) return null
    return profileFromSite({
      ...answer.question.subject,
      moments: answer.question.moments,
      columns: answer.columns,
      states: new Map(),
      selectedPoint: null,
      remarks: [],
    })
  })
  return { profile, subject, remarks: asked.remarks, waiting: asked.waiting }
}
