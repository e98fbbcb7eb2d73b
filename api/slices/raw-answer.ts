import type { RawAnswer, RawChannel } from '#contract/raw-readings.ts'
import { rawLimits } from '#contract/raw-readings.ts'
import { groupBy } from '#domain/group-by.ts'
import { accept, type Outcome, reject } from '#domain/outcome.ts'
import { secondsToReceiptSql } from '#domain/receipt/known-by.ts'
import { type BarometersOf, barometersOf, everyBarometer } from '#domain/reduction/barometer-in-force.ts'
import { type Stretch, stampsWithin } from '#domain/reduction/clock-reach.ts'
import { clockStretches, clocksOf } from '#domain/reduction/logger-clock.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { SandboxChannel, SandboxLink, SandboxRecipe } from '#domain/what-if/sandbox-recipe.ts'
import type { Store } from '../store/store.ts'
import { type Link, uncalibrated } from './links.ts'
import type { Recipe } from './recipe.ts'
import { micros } from './reduce-window.ts'
import { createSeriesNeeds, type NeededRecipe } from './series-needs.ts'

export interface RawQuestion {
  readonly store: Store
  readonly site: string
  readonly model: SiteModel
  readonly recipe: Recipe
  readonly revision: number
  readonly series: readonly string[]
  /** Inclusive. */
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
}

/**
 * The raw readings behind some series, with the recipe of these and of whatever they need; thermistor and every barometer of
 * each sensor come along whether its chain asks for them now or not, so that a sandbox may. Nothing is written.
 */
export async function rawAnswer(question: RawQuestion): Promise<Outcome<RawAnswer>> {
  const { site, model, recipe, revision, series, fromEpochMs, untilEpochMs } = question
  const needed = neededOf(question)
  const nameOf = new Map([...recipe.numberOf].map(([id, number]) => [number, id]))
  const sensors = new Map(model.sensors.map((sensor) => [sensor.id, sensor]))
  const barometers = barometersOf(model.sensorBarometers)
  const links = needed.links.flatMap((link): readonly SandboxLink[] => {
    const id = nameOf.get(link.series)
    const sensor = id === undefined ? undefined : sensors.get(id)
    const apart = link.untilEpochMs <= reachesBackTo(question, needed) || untilEpochMs <= link.fromEpochMs
    return sensor === undefined || apart ? [] : sandboxLinks(link, sensor, barometers)
  })
  const made = needed.bundles
  const named = channelNames(model, recipe, links)
  const channels = await readChannels(question, needed, links)
  if (!channels.ok) return channels
  return accept({
    site,
    revision,
    fromEpochMs,
    untilEpochMs,
    series,
    recipe: { links, bundles: made, channels: named, ...clocksOfLoggers(model, named) },
    channels: channels.value,
  })
}

function neededOf({ recipe, model, series }: RawQuestion): NeededRecipe {
  const needs = createSeriesNeeds(recipe)
  const numbersOf = (ids: readonly (string | null)[]) =>
    ids.flatMap((id) => recipe.numberOf.get(id ?? '') ?? [])
  const first = needs.neededBy(numbersOf(series))
  const own = new Set(first.links.map((link) => link.series))
  const barometers = barometersOf(model.sensorBarometers)
  const companions = model.sensors
    .filter(({ id }) => own.has(recipe.numberOf.get(id) ?? -1))
    .flatMap((sensor) => [sensor.temperatureSensor, ...everyBarometer(barometers(sensor))])
  return needs.neededBy(numbersOf([...series, ...companions]))
}

const reachesBackTo = ({ fromEpochMs }: RawQuestion, { lookBackMinutes }: NeededRecipe): number =>
  fromEpochMs - lookBackMinutes * 60_000

/**
 * A link as a sandbox takes it, parted where another barometer begins even if its chain asks for none: a sandbox may ask,
 * and then takes the one that the record would.
 */
const sandboxLinks = (
  link: Link,
  sensor: SiteModel['sensors'][number],
  barometers: BarometersOf,
): readonly SandboxLink[] =>
  barometers(sensor).flatMap(({ barometer, ...period }) => {
    const fromEpochMs = Math.max(link.fromEpochMs, period.fromEpochMs)
    const untilEpochMs = Math.min(link.untilEpochMs, period.untilEpochMs)
    return untilEpochMs <= fromEpochMs
      ? []
      : [
          {
            channel: link.channel,
            series: sensor.id,
            fromEpochMs,
            untilEpochMs,
            steps: link.shape === uncalibrated ? null : link.steps,
            temperatureSeries: sensor.temperatureSensor,
            barometerSeries: barometer,
            rangeLow: link.rangeLow,
            rangeHigh: link.rangeHigh,
            decimals: link.decimals,
            lateAfterMinutes: link.lateAfterMinutes,
          },
        ]
  })

function channelNames(model: SiteModel, recipe: Recipe, links: readonly SandboxLink[]) {
  const wires = new Map<number, { logger: string; name: string; rawUnit: string | null }>()
  const wanted = new Map(
    links.map((link) => [`${link.series}\n${link.fromEpochMs}\n${link.channel}`, link.channel]),
  )
  const sensors = new Map(model.sensors.map((sensor) => [sensor.id, sensor]))
  for (const link of recipe.links) {
    const series = recipe.series.find((one) => one.series === link.series)?.id
    const channel = wanted.get(`${series}\n${link.fromEpochMs}\n${link.channel}`)
    if (channel === undefined || wires.has(channel)) continue
    const wire = model.wiring.find(
      ({ sensor, fromAt, untilAt }) =>
        sensor === series && fromAt <= link.fromEpochMs && (untilAt === null || link.fromEpochMs < untilAt),
    )
    if (wire)
      wires.set(channel, {
        logger: wire.logger,
        name: wire.channel,
        rawUnit: sensors.get(wire.sensor)?.rawUnit ?? null,
      })
  }
  return [...wires].map(([channel, wire]) => ({ channel, ...wire }))
}

/** Readings of the channels that links read, as far back as companions and surveys may lie; bounded. */
async function readChannels(
  question: RawQuestion,
  needed: NeededRecipe,
  links: readonly SandboxLink[],
): Promise<Outcome<readonly RawChannel[]>> {
  const { store, site, fromEpochMs, untilEpochMs } = question
  const numbers = [...new Set(links.map(({ channel }) => channel))]
  if (numbers.length === 0) return accept([])
  const connection = await store.connect()
  try {
    const since = reachesBackTo(question, needed)
    const asked = numbers.flatMap((channel) =>
      stampsAsked(needed, channel, { fromEpochMs: since, untilEpochMs }),
    )
    if (asked.length === 0) return accept([])
    await store.exposeReadings(connection, 'raw_reading', {
      site,
      fromEpochMs: Math.min(...asked.map(({ stamps }) => stamps.fromEpochMs)),
      untilEpochMs: Math.max(...asked.map(({ stamps }) => stamps.untilEpochMs)),
    })
    const stretches = [
      ...groupBy(
        asked,
        ({ stamps }) => `"at" >= ${micros(stamps.fromEpochMs)} and "at" < ${micros(stamps.untilEpochMs)}`,
      ),
    ]
    const chosen = `from raw_reading where ${stretches
      .map(([bounds, own]) => `(channel in (${own.map(({ channel }) => channel).join(', ')}) and ${bounds})`)
      .join(' or ')}`
    const counted = await connection.runAndReadAll(`select count(*)::integer ${chosen}`)
    const count = Number(counted.getRows()[0]?.[0])
    if (count > rawLimits.readings)
      return reject({
        code: 'too-many-readings',
        value: String(count),
        expected: `at most ${rawLimits.readings}`,
        message: `That asks for ${count} raw readings, and one question may bring ${rawLimits.readings}. Ask for a shorter time or fewer series.`,
      })
    const reader = await connection.runAndReadAll(`
      select channel, epoch_us("at")::double / 1e3, raw, ${secondsToReceiptSql('received_at', '"at"')}::double
      ${chosen} order by channel, "at", received_at, raw`)
    const [channel = [], at = [], raw = [], received = []] = reader.getColumns() as (number | null)[][]
    return accept(packed(channel, at, raw, received, fromEpochMs))
  } finally {
    connection.closeSync()
  }
}

/** Stretches of stamps of a channel whose readings stand in a stretch of instants, as its clock is on record. */
function stampsAsked({ clocks }: NeededRecipe, channel: number, stretch: Stretch) {
  const settings = clocks.find(({ channels }) => channels.includes(channel))?.settings ?? []
  return clockStretches(settings).flatMap((own) => {
    const stamps = stampsWithin(own, stretch)
    return stamps ? [{ channel, stamps }] : []
  })
}

/** Clocks on record of the loggers of some channels; left out: none is. */
function clocksOfLoggers(
  { loggerClocks }: SiteModel,
  channels: readonly SandboxChannel[],
): Pick<SandboxRecipe, 'clocks'> {
  const loggers = new Set(channels.map(({ logger }) => logger))
  const clocks = [...clocksOf(loggerClocks)].filter(([logger]) => loggers.has(logger))
  return clocks.length === 0 ? {} : { clocks: clocks.map(([logger, settings]) => ({ logger, settings })) }
}

type Cells = readonly (number | null)[]

function packed(channels: Cells, at: Cells, raw: Cells, received: Cells, fromEpochMs: number): RawChannel[] {
  const made: {
    channel: number
    sinceLastMs: number[]
    raw: (number | null)[]
    receivedAfterSeconds: number[]
  }[] = []
  let lastMs = fromEpochMs
  for (let row = 0; row < channels.length; row++) {
    const channel = Number(channels[row])
    let own = made.at(-1)
    if (own?.channel !== channel) {
      own = { channel, sinceLastMs: [], raw: [], receivedAfterSeconds: [] }
      made.push(own)
      lastMs = fromEpochMs
    }
    const atEpochMs = Number(at[row])
    const value = raw[row]
    own.sinceLastMs.push(atEpochMs - lastMs)
    own.raw.push(value === null || value === undefined || !Number.isFinite(value) ? null : value)
    own.receivedAfterSeconds.push(Number(received[row]))
    lastMs = atEpochMs
  }
  return made
}
