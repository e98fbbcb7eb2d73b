import { describe, expect, test } from 'vitest'
import { assert } from '#domain/assert.ts'
import { correctedModel } from '#domain/corrections/corrected-model.ts'
import type { CorrectionDraft } from '#domain/corrections/correction.ts'
import { resolveCorrections } from '#domain/corrections/resolve-corrections.ts'
import { clocksOf } from '#domain/reduction/logger-clock.ts'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { smallSite } from '../site/small-site.ts'

const series = 'PZ-1A/pore-pressure'
const warmth = 'PZ-1A/temperature'
const at = (month: number, day = 1) => Date.UTC(2027, month - 1, day)

function site(): SiteModel {
  const read = readSite(smallSite())
  assert(read.ok, 'the small site is sound')
  return read.value
}

function resolved(model: SiteModel, ...drafts: readonly CorrectionDraft[]) {
  const found = resolveCorrections(model, drafts)
  if (!found.ok) throw new Error(found.issues.map(({ message }) => message).join(' '))
  return found.value
}

function corrected(model: SiteModel, ...drafts: readonly CorrectionDraft[]): SiteModel {
  const signature = { author: 'Ada Marsh', reason: 'held against the time signal' }
  const made = correctedModel(model, resolved(model, ...drafts), signature)
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value
}

describe('clock', () => {
  const asSent = { addedSeconds: 0, addedSecondsPerDay: 0 }
  const clock = (change: object = {}): CorrectionDraft => ({
    kind: 'clock',
    series,
    logger: 'LG-1',
    fromEpochMs: at(4),
    untilEpochMs: at(5),
    was: asSent,
    clock: { addedSeconds: 90, addedSecondsPerDay: 2 },
    ...change,
  })
  const rowsOf = (model: SiteModel) =>
    model.loggerClocks.map(({ version, validFrom, addedSeconds, addedSecondsPerDay }) => [
      version,
      validFrom,
      addedSeconds,
      addedSecondsPerDay,
    ])

  test('holds for its time and is as before again after it; said twice of one logger it is refused', () => {
    const model = site()
    expect(rowsOf(corrected(model, clock()))).toEqual([
      [1, at(4), 90, 2],
      [2, at(5), 0, 0],
    ])
    const twice = resolveCorrections(model, [clock(), clock({ series: warmth })])
    expect(twice.ok ? [] : twice.issues.map(({ code }) => code)).toEqual(['correction-repeated'])
    expect(resolveCorrections(model, [clock(), clock({ fromEpochMs: at(5), untilEpochMs: null })]).ok).toBe(
      true,
    )
  })

  test('goes on past records that only say again what held, and what it says there has grown', () => {
    const once = corrected(site(), clock())
    const back = corrected(once, clock({ was: { addedSeconds: 90, addedSecondsPerDay: 2 }, clock: asSent }))
    expect(rowsOf(back).at(-1)).toEqual([3, at(4), 0, 0])
    const again = corrected(back, clock({ fromEpochMs: at(3), untilEpochMs: null }))
    expect(rowsOf(again).slice(3)).toEqual([
      [4, at(3), 90, 2],
      [5, at(4), 90 + 2 * 31, 2],
      [6, at(5), 90 + 2 * 61, 2],
    ])
    expect(clocksOf(again.loggerClocks).get('LG-1')).toHaveLength(1)
  })

  test('says in words what is on record and what is proposed, and whatever it moves', () => {
    const [one] = resolved(site(), clock({ untilEpochMs: null }))
    expect(one).toMatchObject({
      name: 'clock',
      replaces: 'LG-1',
      before: 'Of LG-1, from the stamp 2027-04-01T00:00:00Z on stamps stand as sent.',
    })
    expect(one?.after).toMatch(
      /^Of LG-1, from the stamp 2027-04-01T00:00:00Z on 90 s are added to stamps, and 2 s added for each day after\. Everything that LG-1 reads/,
    )
    expect(one?.moves).toEqual(expect.arrayContaining([series, warmth]))
  })
})
