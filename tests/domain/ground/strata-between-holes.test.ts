import { expect, test } from 'vitest'
import { joinStrata, type LoggedHole } from '#domain/ground/strata-between-holes.ts'

const hole = (id: string, chainageMetres: number, given: Partial<LoggedHole> = {}): LoggedHole => ({
  id,
  chainageMetres,
  offsetMetres: 0,
  footLevelMetres: -15,
  strata: [
    { name: 'Made ground', topLevelMetres: 4.6, baseLevelMetres: 1.8 },
    { name: 'Soft clay', topLevelMetres: 1.8, baseLevelMetres: -5.4 },
    { name: 'Dense sand', topLevelMetres: -5.4, baseLevelMetres: -15 },
  ],
  ...given,
})

test('layers that both holes met are joined, the lowest without a base: the hole ended in it', () => {
  const joins = joinStrata([hole('B', 20), hole('A', 0)], 30)
  expect(joins.map(({ name, fromHole, toHole }) => [name, fromHole, toHole])).toEqual([
    ['Made ground', 'A', 'B'],
    ['Soft clay', 'A', 'B'],
    ['Dense sand', 'A', 'B'],
  ])
  expect(joins.map(({ baseLevelsMetres }) => baseLevelsMetres)).toEqual([[1.8, 1.8], [-5.4, -5.4], null])
})

test('a join over more than the limit is a guess, and offset counts as distance', () => {
  const near = [hole('A', 0), hole('B', 20)]
  expect(joinStrata(near, 20).every(({ justified }) => justified)).toBe(true)
  expect(joinStrata(near, 19.9).some(({ justified }) => justified)).toBe(false)
  const aside = joinStrata([hole('A', 0), hole('B', 20, { offsetMetres: 15 })], 24)
  expect(aside[0]).toMatchObject({ apartMetres: 25, justified: false })
})

test('a layer that one hole did not meet is not carried to it', () => {
  const without = hole('B', 10, {
    strata: [
      { name: 'Made ground', topLevelMetres: 4.6, baseLevelMetres: -2 },
      { name: 'Dense sand', topLevelMetres: -2, baseLevelMetres: -15 },
    ],
  })
  expect(joinStrata([hole('A', 0), without], 30).map(({ name }) => name)).toEqual([
    'Made ground',
    'Dense sand',
  ])
})

test('holes that disagree on the order of layers join by guess only; a name met twice is not joined', () => {
  const turned = hole('B', 10, {
    strata: [
      { name: 'Soft clay', topLevelMetres: 4, baseLevelMetres: 1 },
      { name: 'Made ground', topLevelMetres: 1, baseLevelMetres: -2 },
    ],
  })
  expect(joinStrata([hole('A', 0), turned], 30).some(({ justified }) => justified)).toBe(false)
  const twice = hole('B', 10, {
    strata: [
      { name: 'Soft clay', topLevelMetres: 4, baseLevelMetres: 1 },
      { name: 'Dense sand', topLevelMetres: 1, baseLevelMetres: -2 },
      { name: 'Soft clay', topLevelMetres: -2, baseLevelMetres: -6 },
    ],
  })
  expect(joinStrata([hole('A', 0), twice], 30).map(({ name }) => name)).toEqual(['Dense sand'])
})

test('one hole, or none, joins nothing', () => {
  expect(joinStrata([], 30)).toEqual([])
  expect(joinStrata([hole('A', 0), hole('B', 5, { strata: [] })], 30)).toEqual([])
})
