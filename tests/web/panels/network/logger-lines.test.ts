import { describe, expect, it } from 'vitest'
import type { LoggerFacts, NetworkDocument } from '#contract/network-document.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { loggerLines, silentCritical } from '../../../../web/derived/network-condition.ts'
import { ordered } from '../../../../web/panels/network/logger-order.ts'
import { batteryWords, standingWords } from '../../../../web/panels/network/logger-words.ts'
import { silenceSentence } from '../../../../web/panels/network/silence-sentence.ts'
import { series, state } from '../../state/small-site.ts'

const hourMs = 3_600_000
const dayMs = 24 * hourMs
const at = Date.UTC(2027, 5, 1, 12)

const facts = (logger: string, hoursAgo: number | null, more: Partial<LoggerFacts> = {}): LoggerFacts => {
  const heard = hoursAgo === null ? null : at - hoursAgo * hourMs
  return {
    logger,
    kind: 'logger',
    wiredChannels: [{ channel: 'C1', series: `${logger}-P/force`, critical: true }],
    intervalMinutes: 60,
    lateAfterMinutes: 180,
    lastStampEpochMs: heard,
    lastReceivedEpochMs: heard,
    days: Array.from({ length: 20 }, (_, day) => ({
      dayEpochMs: Date.UTC(2027, 4, 12) + day * dayMs,
      due: 24,
      held: 24,
      inTime: 24,
      leastDelaySeconds: 4 + (day % 3),
      medianDelaySeconds: 20,
    })),
    routes: [],
    consequence: { channels: 1, criticalChannels: 1, dependants: 0 },
    ...more,
  }
}
const network = (loggers: LoggerFacts[]): NetworkDocument => ({
  site: 's',
  revision: 1,
  asOfEpochMs: at,
  fromEpochMs: at - 60 * dayMs,
  loggers,
  wiringConflicts: [],
  singlePoints: [],
  calibrations: { due: [], withoutDate: 0, sensors: 0 },
})
const site = {
  locations: ['L1', 'L2', 'L3', 'L4'].map((id, east) => ({
    id,
    eastingMetres: 10 * east,
    northingMetres: 0,
  })),
  loggers: ['L1', 'L2', 'L3', 'L4'].map((id) => ({ id, location: id })),
} as unknown as SiteDocument

describe('loggerLines', () => {
  const lines = loggerLines(
    network([
      facts('L1', 1, { consequence: { channels: 9, criticalChannels: 0, dependants: 0 } }),
      facts('L2', 1),
      facts('L3', 9),
      facts('L4', null),
    ]),
    site,
    [],
    null,
  )
  it('puts what is silent first, then what most hangs on', () => {
    expect(lines.map((one) => [one.facts.logger, one.condition.standing, one.stop])).toEqual([
      ['L3', 'silent', 3],
      ['L4', 'never-heard', 4],
      ['L2', 'heard-in-part', 2],
      ['L1', 'heard-in-part', 1],
    ])
  })
  it('can be put in another order, what is not known last either way', () => {
    const names = (by: 'heard' | 'logger' | 'walk' | 'battery', descending: boolean) =>
      ordered(lines, { by, descending }).map((one) => one.facts.logger)
    expect(names('heard', false)).toEqual(['L3', 'L2', 'L1', 'L4'])
    expect(names('heard', true).at(-1)).toBe('L4')
    expect(names('walk', false)).toEqual(['L1', 'L2', 'L3', 'L4'])
    expect(names('logger', true)).toEqual(['L4', 'L3', 'L2', 'L1'])
    expect(names('battery', true)).toHaveLength(4)
  })
})

it('says of cells without a slope that their end is not known', () => {
  const battery = { left: { kind: 'no-slope' }, trend: null, voltsNow: 3.6 } as const
  expect(batteryWords(battery, 3)).toEqual(['3.60 V', 'no slope: when they end is not known'])
  expect(standingWords['heard-in-part']).toBe('◦ heard, cells unknown')
})

describe('silentCritical', () => {
  const known = new Map(
    [series(1, 'L1-P/force'), series(2, 'L2-P/force'), series(3, 'L3-P/force')].map((one) => [one.id, one]),
  )
  const find = (loggers: LoggerFacts[], late: readonly number[] = []) =>
    silentCritical(
      network(loggers),
      known,
      (point) => point,
      new Map([1, 2, 3].map((number) => [number, state(number, { late: late.includes(number) })])),
    )?.map((one) => one.instrument)

  it('is not known before the states are', () => {
    expect(silentCritical(network([facts('L1', 1)]), known, (point) => point, null)).toBeNull()
  })
  it('finds a late value, and a logger unheard although its memory filled the gap since', () => {
    expect(find([facts('L1', 1), facts('L2', 1)])).toEqual([])
    expect(find([facts('L1', 1), facts('L2', 1)], [2])).toEqual(['L2-P'])
    expect(find([facts('L1', 1), facts('L3', 9)])).toEqual(['L3-P'])
  })
  it('finds what reads in time and gives no value, apart from what is not heard', () => {
    const found = silentCritical(
      network([facts('L1', 1)]),
      known,
      (point) => point,
      new Map([[1, state(1, { value: null, level: null, atEpochMs: at - hourMs })]]),
    )
    expect(found).toMatchObject([{ instrument: 'L1-P', reason: 'without-value', sinceEpochMs: at - hourMs }])
    expect(found?.map((one) => silenceSentence(one, at, 'UTC').says)).toEqual([
      expect.stringMatching(/^reads, but gives no value; last read .*11:00/),
    ])
    const late = silentCritical(
      network([facts('L1', 1)]),
      known,
      (point) => point,
      new Map([[1, state(1, { value: null, late: true, atEpochMs: at - 9 * hourMs })]]),
    )
    expect(late).toMatchObject([{ reason: 'unheard' }])
    expect(late?.map((one) => silenceSentence(one, at, 'UTC').says)).toEqual([
      expect.stringContaining('silent for 9 h'),
    ])
  })
  it('leaves out what is not critical', () => {
    const wiredChannels = [{ channel: 'C1', series: 'L1-P/force', critical: false }]
    expect(find([facts('L1', 9, { wiredChannels })])).toEqual([])
  })
})
