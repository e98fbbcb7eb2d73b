import type { TakenZero, ZeroFrom } from '../corrections/correction.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import type { Companions } from '../reduction/chain.ts'
import { companionAges } from '../reduction/companion-age.ts'
import { runChain } from '../reduction/run-chain.ts'
import { mean } from '../statistics/spread.ts'
import { companionsOf, type Standing } from './apply-sandbox.ts'
import { stretchOfZero } from './edit-zero.ts'
import { lookUp } from './reduce-sensor.ts'
import { firstAtOrAfter } from './reduced-series.ts'
import type { SandboxLink } from './sandbox-recipe.ts'

/** So many zero readings say all of their scatter that there is to say. */
export const mostZeroReadings = 400

/**
 * The readings that a zero was taken from, as `zero-readings.csv` keeps them: raw, with the companions that the chain of
 * `link` asks for. Readings without a value are left out as the zero leaves them out, of two at one instant the later
 * received. Refused where there are none, more than `mostZeroReadings`, or where they do not come to what the zero says.
 */
export function zeroReadingsTaken(
  link: Pick<SandboxLink, 'series' | 'steps' | 'temperatureSeries' | 'barometerSeries' | 'decimals'>,
  { zero, reads }: ZeroFrom,
  standing: Standing,
): Outcome<readonly TakenZero[]> {
  const { series, decimals } = link
  const taken = readingsWithin(link, stretchOfZero(zero), standing)
  const used = zero.by === 'mean' ? taken : taken.slice(-1)
  const refuse = (code: string, message: string) => reject({ code, value: series, message })
  if (used.length === 0)
    return refuse('no-zero-reading', `${series} has no reading with a value where its zero is taken from.`)
  if (used.length > mostZeroReadings)
    return refuse(
      'too-many-zero-readings',
      `The zero of ${series} is the mean of ${used.length} readings, and ${mostZeroReadings} are kept with a calibration at most. Take it from a shorter stretch.`,
    )
  const found = mean(used.map(({ value }) => value))
  if (Math.abs(found - reads) > 10 ** -decimals)
    return refuse(
      'zero-not-reached',
      `By the readings on record ${series} would read ${found.toFixed(decimals)} at its zero, and not ${reads.toFixed(decimals)} as it was tried.`,
    )
  return accept(used.map(({ value: _, ...row }) => row))
}

function readingsWithin(
  { series, steps, temperatureSeries, barometerSeries }: Parameters<typeof zeroReadingsTaken>[0],
  stretch: { readonly fromEpochMs: number; readonly untilEpochMs: number },
  standing: Standing,
): readonly (TakenZero & { readonly value: number })[] {
  const { recipe, readings } = standing
  const companionOf = companionsOf(standing)
  const ages = companionAges(steps ?? [])
  const temperature = lookUp(temperatureSeries, ages.temperatureMinutes, companionOf, 0)
  const barometer = lookUp(barometerSeries, ages.barometerMinutes, companionOf, 0)
  const found = new Map<number, TakenZero & { readonly value: number }>()
  const own = recipe.links
    .filter((one) => one.series === series)
    .toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)
  for (const one of own) {
    const of = readings.get(one.channel)
    if (!of) continue
    const end = firstAtOrAfter(of.atEpochMs, Math.min(stretch.untilEpochMs, one.untilEpochMs))
    let at = firstAtOrAfter(of.atEpochMs, Math.max(stretch.fromEpochMs, one.fromEpochMs))
    for (; at < end; at++) {
      const [instant, raw] = [of.atEpochMs[at] as number, of.raw[at] as number]
      const companions: Companions = {
        temperatureDegC: temperature(instant),
        barometerKpa: barometer(instant),
      }
      const { value } = runChain(Number.isFinite(raw) ? raw : null, steps ?? [], companions)
      if (value !== null)
        found.set(Math.round(instant), { at: Math.round(instant), raw, ...companions, value })
    }
  }
  return [...found.values()]
}
