import { expect, test } from 'vitest'
import { canonicalJson, fromRecords, recordKey, toRecords } from '../../../api/store/model-records.ts'
import { smallSite } from '../../contract/small-site.ts'

test('a site model comes back whole from its records, in whatever order they are', () => {
  const model = smallSite()
  expect(fromRecords([...toRecords(model)].reverse())).toEqual(model)
  expect(fromRecords([])).toBeNull()
})

test('the order of properties makes no difference, the order of coordinates does', () => {
  expect(canonicalJson({ b: [{ d: 1, c: 2 }], a: null })).toBe('{"a":null,"b":[{"c":2,"d":1}]}')
  const model = smallSite()
  const facts = Object.fromEntries(Object.entries(model.facts).reverse()) as unknown as typeof model.facts
  expect(toRecords({ ...model, facts })).toEqual(toRecords(model))
  const [first, ...rest] = model.works.features
  const wall = first as NonNullable<typeof first>
  const turned = {
    ...wall,
    geometry: {
      type: 'LineString' as const,
      coordinates: [
        [-30, 48.001],
        [-30.000_001_234_5, 48],
      ],
    },
  }
  expect(toRecords({ ...model, works: { ...model.works, features: [turned, ...rest] } })).not.toEqual(
    toRecords(model),
  )
})

test('a row is kept by its key cells, one as text and several as an array', () => {
  const model = smallSite()
  expect(recordKey('locations', model.locations[0] as object as Record<string, unknown>)).toBe('H-09')
  expect(recordKey('strata', model.strata[1] as object as Record<string, unknown>)).toBe('["H-01",1.6]')
})

test('an optional column that came later is an empty cell of older rows, not a new version', () => {
  const model = smallSite()
  const records = toRecords(model)
  const stage = records.find(({ kind, key }) => kind === 'stages' && key === 'wall')
  expect(stage?.body).not.toContain('formationLevelMetres')
  expect(fromRecords(records)?.stages[0]).toHaveProperty('formationLevelMetres', null)
})

test('two rows with one key are our own mistake', () => {
  const model = smallSite()
  const gateways = [...model.gateways, ...model.gateways]
  expect(() => toRecords({ ...model, gateways })).toThrow('gateways of small-quay has a key twice')
})
