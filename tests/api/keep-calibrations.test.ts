import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { keepCalibrations } from '../../api/keep-calibrations.ts'
import { loadSiteFolder } from '../../api/site-folder.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { smallSite } from '../domain/site/small-site.ts'

const series = 'PZ-1A/pore-pressure'

let data: string
let store: Store
let folder: SiteModel
beforeEach(async () => {
  data = await mkdtemp(join(tmpdir(), 'keep-calibrations-'))
  store = await openDuckdbStore({ file: join(data, 'site.duckdb') })
  const read = readSite(smallSite())
  if (!read.ok) throw new Error('small site')
  folder = read.value
  await load(folder)
  await store.changeSite(folder.facts.id, withEntered, {
    author: 'Ben Holm',
    reason: 'approved',
    atEpochMs: 1,
  })
})
afterEach(async () => {
  await store.close()
  await rm(data, { recursive: true, force: true })
})

const load = (model: SiteModel) => loadSiteFolder(store, { model, layouts: [], hash: '' }, 'again', 2)
const stored = async () => (await store.getSite(folder.facts.id)) as SiteModel

/** Version 3 of the tip, with a thermal term that asks for its thermistor, as the page enters it. */
const entered = {
  id: 'CC-1/3',
  sensor: series,
  version: 3,
  validFrom: Date.UTC(2027, 3, 1),
  certificate: 'C-77',
  calibratedAt: null,
  dueAt: null,
  standardUncertainty: 0.3,
  author: 'Ada Marsh',
  reason: 'tried beside its twin',
}
const enteredSteps = [
  { calibration: 'CC-1/3', step: 1, kind: 'linear', parameters: 'factor=-0.1; offset=800; unit=kPa' },
  { calibration: 'CC-1/3', step: 2, kind: 'thermal', parameters: 'factor=0.5; reference=10' },
] as const
const withEntered = (model: SiteModel, row: object = {}, parameters?: string): SiteModel => ({
  ...model,
  calibrations: [...model.calibrations, { ...entered, ...row }],
  calibrationSteps: [
    ...model.calibrationSteps,
    ...enteredSteps.map((step) =>
      step.kind === 'thermal' && parameters !== undefined ? { ...step, parameters } : step,
    ),
  ],
})
const codes = async (model: SiteModel) => {
  const kept = await keepCalibrations(store, model)
  return kept.ok ? [] : kept.issues.map(({ code, value }) => [code, value])
}

test('a folder loaded again does not take a calibration back that was entered in the page', async () => {
  expect(await load(folder)).toEqual({ changed: 0 })
  const { calibrations, calibrationSteps } = await stored()
  expect(calibrations.map(({ id }) => id)).toEqual(['CC-1/1', 'CC-1/2', 'CC-1/3'])
  expect(calibrationSteps.filter(({ calibration }) => calibration === 'CC-1/3')).toEqual(enteredSteps)
})

test('one that has taken it in changes nothing, however its steps are written', async () => {
  const whole = withEntered(folder, {}, 'reference=10;factor=0.5')
  const kept = await keepCalibrations(store, whole)
  expect(kept.ok && kept.value).toBe(whole)
})

test.each([
  ['another instant', { validFrom: Date.UTC(2027, 4, 1) }, undefined],
  ['another step', {}, 'factor=0.6; reference=10'],
])('one that says something else under its name is refused: %s', async (_, row, parameters) => {
  expect(await codes(withEntered(folder, row, parameters))).toEqual([
    ['calibration-entered-otherwise', 'CC-1/3'],
  ])
})

test('one that gives its number away is refused', async () => {
  const other = { ...entered, id: 'CC-9' }
  expect(await codes({ ...folder, calibrations: [...folder.calibrations, other] })).toEqual([
    ['version-entered-twice', '3'],
  ])
})

test('one under which its chain could not be worked out is refused, and nothing is changed', async () => {
  const before = await stored()
  const sensors = folder.sensors.map((row) => (row.id === series ? { ...row, temperatureSensor: null } : row))
  await expect(load({ ...folder, sensors })).rejects.toThrow(
    /^The folder does not go together with what was recorded .*\n.*CC-1\/3/,
  )
  expect(await stored()).toEqual(before)
})

test('a sensor that the folder no longer has takes its calibrations with it', async () => {
  const gone = {
    ...folder,
    sensors: folder.sensors.filter(({ id }) => id !== series),
    calibrations: [],
    calibrationSteps: [],
  }
  const kept = await keepCalibrations(store, gone)
  expect(kept.ok && kept.value).toBe(gone)
})
