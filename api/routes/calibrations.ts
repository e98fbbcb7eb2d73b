import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { type CalibrationList, calibrationDraftSchema } from '#contract/calibration-draft.ts'
import { baselinesOfSensor, type HeldBaseline } from '#domain/baseline/baselines-of-sensor.ts'
import { levelsInsideNoise } from '#domain/baseline/levels-inside-noise.ts'
import { baselineSentence } from '#domain/baseline/zero-sentences.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import type { Issue, Outcome } from '#domain/outcome.ts'
import { barometersOf } from '#domain/reduction/barometer-in-force.ts'
import { type NextCalibration, nextCalibration } from '#domain/reduction/draft-calibration.ts'
import { zeroReadingsLeft } from '#domain/reduction/zero-readings-left.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { previewCalibration } from '../slices/preview-calibration.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signed, signerAccount } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const largestDraftBytes = 64 * 1024

/** Calibrations of a sensor: every version, what a draft would change, and saving it as the next version. */
export function calibrationRoutes(dependencies: Dependencies): Hono {
  const { store, publisher, now } = dependencies
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: largestDraftBytes,
    onError: (context) =>
      problem(
        context,
        413,
        'Draft too large',
        'A calibration has at most 20 steps. Take out what is not part of it.',
      ),
  })

  const path = '/api/sites/:site/calibrations'
  for (const guarded of [path, `${path}/*`]) routes.use(guarded, siteMustExist(dependencies))

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const sensor = model.sensors.find(({ id }) => id === context.req.query('sensor'))
    if (!sensor)
      return problem(
        context,
        404,
        'No such sensor',
        'Give a sensor of this site as ?sensor=point/measure. A series that an instrument makes from others has no calibration of its own.',
      )
    const rows = model.calibrations
      .filter((row) => row.sensor === sensor.id)
      .toSorted((one, other) => one.version - other.version)
    const held = baselinesOfSensor(model, sensor.id)
    const versions = await Promise.all(
      rows.map(async (row) => ({
        row,
        stepRows: model.calibrationSteps
          .filter(({ calibration }) => calibration === row.id)
          .toSorted((one, other) => one.step - other.step),
        recordedAtEpochMs:
          (await store.listVersions(site, 'calibrations', row.id)).at(-1)?.recordedAtEpochMs ?? Number.NaN,
        baselineSentence: sentenceOf(held, row.id, sensor.unit),
      })),
    )
    const list: CalibrationList = {
      sensor: sensor.id,
      rawUnit: sensor.rawUnit,
      unit: sensor.unit,
      venting: sensor.venting ?? null,
      barometers: barometersOf(model.sensorBarometers)(sensor).map(({ barometer, record }) => ({
        barometer,
        fromEpochMs: record?.validFrom ?? null,
        entered: record && { author: record.author, reason: record.reason },
      })),
      ...clocksOfSensor(model, sensor.id),
      versions,
      levelCautions: levelsInsideNoise(
        valueLevels(model.triggerLevels, model.stages).filter(({ series }) => series === sensor.id),
        held,
        sensor.unit,
      ),
      joins: model.joins.filter(({ series, follows }) => series === sensor.id || follows === sensor.id),
    }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.post(`${path}/preview`, bounded, async (context) => {
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const next = await readDraft(context, model)
    if (!next.ok) return refuseDraft(context, next.issues)
    const { signal } = context.req.raw
    return context.json(await previewCalibration({ store, site, model, next: next.value, signal }))
  })

  routes.post(path, bounded, async (context) => {
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const next = await readDraft(context, model)
    if (!next.ok) return refuseDraft(context, next.issues)
    const { row, stepRows } = next.value
    try {
      await store.addRows(
        site,
        { calibrations: [row], calibrationSteps: stepRows },
        { author: row.author, account: signerAccount(context), reason: row.reason, atEpochMs: now() },
      )
    } catch (failure) {
      if (!(failure instanceof VersionConflict)) throw failure
      return problem(
        context,
        409,
        'Another version was saved meanwhile',
        `${row.id} was saved by someone else while this one was being saved. Look at that version first, then make the change again.`,
      )
    }
    publisher.changed(site)
    return context.json({ row, stepRows, zeroReadingsLeft: zeroReadingsLeft(model, row) }, 201)
  })

  return routes
}

function sentenceOf(held: readonly HeldBaseline[], calibration: string, unit: string): string | null {
  if (held.length === 0) return 'The chains of this sensor cannot be read, so nothing is said of its zero.'
  const one = held.find((one) => one.calibration === calibration)
  if (!one) return null
  return one.baseline ? baselineSentence(one.baseline, unit) : 'No zero readings are recorded.'
}

async function readDraft(context: Context, model: SiteModel): Promise<Outcome<NextCalibration>> {
  const read = await readBody(context, calibrationDraftSchema, {
    code: 'draft-unreadable',
    what: 'The draft',
  })
  return read.ok ? nextCalibration(model, signed(context, read.value)) : read
}

const refuseDraft = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Calibration not understood',
    'The calibration was not saved; what is wrong with it stands in issues.',
    issues,
  )

/** Records of the clocks of loggers that ever read a sensor. */
function clocksOfSensor(
  { wiring, loggerClocks }: SiteModel,
  sensor: string,
): Pick<CalibrationList, 'clocks'> {
  const loggers = new Set(wiring.filter((wire) => wire.sensor === sensor).map(({ logger }) => logger))
  const clocks = loggerClocks
    .filter(({ logger }) => loggers.has(logger))
    .toSorted((one, other) => one.validFrom - other.validFrom || one.version - other.version)
  return clocks.length === 0 ? {} : { clocks }
}
