import { expect, test } from 'vitest'
import { everyLevel, levelStanding, listedLevels } from '../../../../web/panels/levels/level-list.ts'
import { levelFor } from '../../../support/level-for.ts'

const stages = [{ id: 'dig', name: 'Dig', startsAt: 100, endsAt: 200, formationLevelMetres: null }]
const levels = [
  levelFor({ id: 'b', series: 'P-10/settlement' }),
  levelFor({ id: 'a', series: 'P-2/settlement', level: 2 }),
  levelFor({ id: 'c', series: 'P-2/settlement', watches: 'silence', stage: 'dig' }),
  levelFor({ id: 'd', series: 'T-1/tilt', validUntil: 150 }),
]
const listed = (changed: Partial<typeof everyLevel>, at = 160) =>
  listedLevels(levels, stages, { ...everyLevel, ...changed }, at).map(({ id }) => id)

test('levels are found by name, measure, stage, number and kind, those in force at first', () => {
  expect(listed({})).toEqual(['c', 'a', 'b'])
  expect(listed({ inForceOnly: false })).toEqual(['c', 'a', 'b', 'd'])
  expect(listed({}, 120)).toEqual(['c', 'a', 'b', 'd'])
  expect(listed({ name: 'p-2/' })).toEqual(['c', 'a'])
  expect(listed({ measure: 'tilt', inForceOnly: false })).toEqual(['d'])
  expect(listed({ stage: 'dig' })).toEqual(['c'])
  expect(listed({ level: 2 })).toEqual(['a'])
  expect(listed({ kind: 'value' })).toEqual(['a', 'b'])
})

test('a level that does not apply says why', () => {
  const staged = levelFor({ stage: 'dig', validFrom: 50, validUntil: 300 })
  expect([40, 60, 100, 199, 200, 300].map((at) => levelStanding(staged, stages, at))).toEqual([
    'not yet',
    'stage not on',
    'in force',
    'in force',
    'stage not on',
    'ended',
  ])
})
