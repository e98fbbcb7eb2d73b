import type { PlacedInstrument, SiteDocument } from '#contract/site-document.ts'
import { positionAtDepth } from '#domain/geometry/hole.ts'
import { expectedAtDepth, predictionsInForce } from '#domain/levels/predictions-in-force.ts'
import type { Measure } from '#domain/site/vocabulary.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { type DepthProfileProps, isNotCurrent } from './profile-props.ts'

/** Adds what the design expects by depth at the clock, and a sentence for every value beyond it. */
export function withExpected(
  { document, instrument }: { document: SiteDocument; instrument: PlacedInstrument },
  measure: Measure,
  props: DepthProfileProps,
): DepthProfileProps {
  const clock = props.curves[0]
  const location = document.locations.find(({ id }) => id === instrument.location)
  if (!clock || !location) return props
  const found = predictionsInForce(document.predictions, document.stages, {
    instrument: instrument.id,
    measure,
    atEpochMs: clock.atEpochMs,
  })
  const placed = (found?.predictions ?? []).filter(({ depthMetres }) => depthMetres !== null)
  if (found === null || placed.length < 2) return props
  const places = placed.map(({ depthMetres, low, high }) => ({
    levelMetres: positionAtDepth(location, depthMetres ?? 0).levelMetres,
    low,
    high,
  }))
  const { stage } = found
  const until = stage.endsAt === null ? '' : `, ${formatShortInstant(stage.endsAt, props.timeZone)}`
  const sources = [...new Set(placed.map(({ source }) => source))].join('; ')
  const beyond = props.points.flatMap((point) => {
    const reading = clock.readings.find((one) => one.point === point.point)
    const value = reading?.value ?? null
    const expected = expectedAtDepth(placed, point.depthMetres)
    if (value === null || expected === null || (value >= expected.low && value <= expected.high)) return []
    const text = (number: number) => withUnit(formatValue(number, props.decimals), props.unit)
    return [
      `${point.point} at ${text(value)} lies ${value > expected.high ? 'above' : 'below'} what is expected there, ${text(expected.low)} to ${text(expected.high)}${reading && isNotCurrent(reading) ? '; its value is not current' : ''}.`,
    ]
  })
  return {
    ...props,
    expected: {
      places,
      atPoints: new Map(
        props.points.flatMap(({ point, depthMetres }) => {
          const at = expectedAtDepth(placed, depthMetres)
          return at ? [[point, at] as const] : []
        }),
      ),
      sentence: `Expected by the end of “${stage.name}”${until}`,
    },
    remarks: [...props.remarks, ...beyond, `What is expected is from: ${sources}. It is no trigger level.`],
  }
}
