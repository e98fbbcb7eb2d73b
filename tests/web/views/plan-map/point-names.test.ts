import { expect, it } from 'vitest'
import type { PlanSymbol } from '../../../../web/derived/plan-symbols.ts'
import { pointNames } from '../../../../web/views/plan-map/point-names.ts'

const symbol = (id: string, more: Partial<PlanSymbol>): PlanSymbol => ({
  id,
  instrument: id,
  kind: 'piezometer',
  longitude: 0,
  latitude: 0,
  points: [id],
  standing: 'within',
  partLate: false,
  allLate: false,
  noLevel: 0,
  channels: 1,
  outOfUse: 0,
  outOfUseSinceEpochMs: null,
  cameLater: false,
  share: null,
  ageMs: 3_600_000,
  ...more,
})
const symbols = [
  symbol('PZ-1', {}),
  symbol('PZ-2', { standing: 'late', ageMs: 30 * 3_600_000 }),
  symbol('PZ-3', { standing: 'late', ageMs: null }),
  symbol('PZ-4', { standing: 'level-1', partLate: true, ageMs: 5 * 86_400_000 }),
]
const texts = (shown: boolean) =>
  pointNames(symbols, shown).features.features.map((one) => one.properties?.text)

it('gives every late one its age, names switched on or off', () => {
  expect(texts(true)).toEqual(['PZ-1', 'PZ-2\n30 h old', 'PZ-3\nno reading', 'PZ-4\n5 d old'])
  expect(texts(false)).toEqual(['', 'PZ-2\n30 h old', 'PZ-3\nno reading', 'PZ-4\n5 d old'])
})

it('names on a board what is selected, at a level or late, with the number of the level', () => {
  const onBoard = (selectedId: string | null) =>
    pointNames(symbols, true, { selectedId }).features.features.map((one) => one.properties?.text)
  expect(onBoard(null)).toEqual(['', 'PZ-2\n30 h old', 'PZ-3\nno reading', 'PZ-4\nLevel 1, 5 d old'])
  expect(onBoard('PZ-1')[0]).toBe('PZ-1')
})

it('says of what is out of use that it is', () => {
  const ended = [symbol('PZ-9', { standing: 'out-of-use', ageMs: null })]
  const text = (shown: boolean) => pointNames(ended, shown).features.features[0]?.properties?.text
  expect([text(true), text(false)]).toEqual(['PZ-9\nout of use', ''])
})

it('keeps the name of the worst when there is no room for all', () => {
  const order = pointNames(symbols, true).features.features.map((one) => one.properties?.order as number)
  expect(Math.min(...order)).toBe(order[3])
  expect(Math.max(...order)).toBe(order[0])
})

it('names first the highest level, then lower ones, silence, what is critical, and the rest', () => {
  const some = [
    symbol('no-level', { standing: 'no-level' }),
    symbol('within', {}),
    symbol('critical', { standing: 'no-level', critical: true }),
    symbol('silent', { standing: 'late' }),
    symbol('level-1', { standing: 'level-1' }),
    symbol('level-2', { standing: 'level-2', critical: true }),
  ]
  const named = pointNames(some, true).features.features.map(({ properties }) => ({
    text: String(properties?.text).split('\n')[0],
    order: properties?.order as number,
    level: properties?.level as number,
  }))
  const inOrder = named.toSorted((one, other) => one.order - other.order)
  expect(inOrder.map(({ text }) => text)).toEqual([
    'level-2',
    'level-1',
    'silent',
    'critical',
    'within',
    'no-level',
  ])
  expect(inOrder.map(({ level }) => level)).toEqual([2, 1, 0, 0, 0, 0])
})

it('has a signature that changes with any text', () => {
  const before = pointNames(symbols, true).signature
  const aged = symbols.map((one) => (one.id === 'PZ-2' ? { ...one, ageMs: 90 * 3_600_000 } : one))
  expect(pointNames(aged, true).signature).not.toBe(before)
  expect(pointNames([...symbols], true).signature).toBe(before)
})
