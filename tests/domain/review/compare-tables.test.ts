import { expect, test } from 'vitest'
import { compareTables } from '#domain/review/compare-tables.ts'
import { type Evidence, lacks, speaks } from '#domain/review/evidence.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import { fromEpochMs, hourMs, makeWorld } from './made-world.ts'

const reviewed = makeWorld(1, 20).caseOf(makeWorld(1, 20).trace({ measure: 'tilt', course: () => 0 }))
const tableOf = (...lines: readonly Evidence[]) =>
  weighCase(reviewed, 'value', [
    { id: 'r', title: 'r', tells: ['value'], reason: 'r', source: null, weigh: () => lines },
  ])

test('lines that came, went or weigh otherwise are told, the most changed first; what stayed is not', () => {
  const now = tableOf(
    speaks('a', 'sensor', 12, 'A.'),
    speaks('b', 'sensor', -3, 'B.'),
    speaks('c', 'ground', 5, 'C.'),
    speaks('c', 'ground', 2, 'C again.'),
  )
  const earlier = tableOf(
    speaks('a', 'sensor', 4, 'A.'),
    speaks('b', 'sensor', -3.5, 'B.'),
    lacks('c', 'ground', 'C is missing.'),
  )
  const { causes, changed } = compareTables(now, earlier)
  expect(causes.find(({ cause }) => cause === 'sensor')).toEqual({ cause: 'sensor', now: 9, earlier: 0.5 })
  expect(changed.map(({ now, earlier }) => [now?.sentence, earlier?.sentence])).toEqual([
    ['A.', 'A.'],
    ['C.', 'C is missing.'],
    ['C again.', undefined],
  ])
  expect(compareTables(now, now).changed).toEqual([])
})

test('before the drift began the same rules told nothing of it: what less data would have told', () => {
  const world = makeWorld(8, 60)
  const course = (h: number) => 80 + world.tideMetres(h)
  const drifting = world.caseOf(
    world.trace({
      measure: 'pore-pressure',
      course: (h) => course(h) + 0.2 * Math.max(0, h / 24 - 40),
    }),
    { same: world.beside(() => ({ measure: 'pore-pressure', course }), 3, 4), drivers: world.drivers },
  )
  const untilEpochMs = fromEpochMs + 40 * 24 * hourMs
  const cut = <T extends { atEpochMs: readonly number[]; values: readonly number[] }>(trace: T): T => {
    const kept = trace.atEpochMs.filter((at) => at < untilEpochMs)
    return { ...trace, atEpochMs: kept, values: trace.values.slice(0, kept.length) }
  }
  const earlier = {
    ...drifting,
    untilEpochMs,
    subject: cut(drifting.subject),
    same: drifting.same.map(cut),
    drivers: drifting.drivers.map(cut),
  }
  const { causes, changed } = compareTables(weighCase(drifting, 'value'), weighCase(earlier, 'value'))
  const sensor = causes.find(({ cause }) => cause === 'sensor')
  expect(sensor?.now).toBeGreaterThan((sensor?.earlier ?? 0) + 4)
  expect(changed.some(({ cause, now }) => cause === 'sensor' && now?.rule === 'same-quantity')).toBe(true)
})
