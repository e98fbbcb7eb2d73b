import { createHash } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { type TraverseCorrectionList, traverseCorrectionSchema } from '#contract/traverse-correction.ts'
import { groupBy } from '#domain/group-by.ts'
import { correctTraverse } from '#domain/reduction/correct-traverse.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { VersionConflict } from '../store/version-conflict.ts'
import { problem } from './problem.ts'
import { readBody } from './read-body.ts'
import { signed, signerAccount } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/traverse-corrections'

/** Corrections of traversed casings: what was entered for their faces, and saving one for all intervals at once. */
export function traverseCorrectionRoutes(dependencies: Dependencies): Hono {
  const { store, publisher, now } = dependencies
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: 256 * 1024,
    onError: (context) =>
      problem(context, 413, 'Correction too large', 'A casing has at most 1000 intervals.'),
  })

  routes.use(path, siteMustExist(dependencies))

  routes.get(path, async (context) => {
    const model = (await store.getSite(context.req.param('site'))) as SiteModel
    const instrument = context.req.query('instrument') ?? ''
    const axis = context.req.query('axis') === 'b' ? 'b' : 'a'
    if (model.instruments.find(({ id }) => id === instrument)?.kind !== 'traversed-inclinometer')
      return problem(
        context,
        404,
        'No such casing',
        'Give a traversed inclinometer of this site as ?instrument=…&axis=a or b; the register lists those there are.',
      )
    context.header('cache-control', 'no-cache')
    return context.json(correctionsOf(model, instrument, axis))
  })

  routes.post(path, bounded, async (context) => {
    const site = context.req.param('site')
    const model = (await store.getSite(site)) as SiteModel
    const read = await readBody(context, traverseCorrectionSchema, {
      code: 'correction-unreadable',
      what: 'The correction',
    })
    if (!read.ok) return refuse(context, read.issues)
    const { basis, ...correction } = signed(context, read.value)
    if ((await publisher.publishing(site))?.behind)
      return problem(
        context,
        409,
        'Values are being worked out anew',
        'The survey on the page is from before the last change, so a correction drafted from it might be taken off twice. Wait until the values are worked out, look at the survey again, then decide.',
      )
    const made = correctTraverse(model, correction)
    if (!made.ok) return refuse(context, made.issues)
    if (basis !== correctionsOf(model, correction.instrument, correction.axis).basis)
      return overtaken(context)
    try {
      await store.addRows(
        site,
        {
          calibrations: made.value.map(({ row }) => row),
          calibrationSteps: made.value.flatMap(({ stepRows }) => stepRows),
        },
        {
          author: correction.author,
          account: signerAccount(context),
          reason: correction.reason,
          atEpochMs: now(),
        },
      )
    } catch (failure) {
      if (!(failure instanceof VersionConflict)) throw failure
      return overtaken(context)
    }
    publisher.changed(site)
    return context.json({ saved: made.value.length }, 201)
  })

  return routes
}

function correctionsOf(model: SiteModel, instrument: string, axis: 'a' | 'b'): TraverseCorrectionList {
  const points = new Set(model.points.filter((one) => one.instrument === instrument).map(({ id }) => id))
  const sensors = new Set(
    model.sensors
      .filter(({ point, measure }) => points.has(point) && measure.startsWith(`face-${axis}`))
      .map(({ id }) => id),
  )
  const rows = model.calibrations.filter(({ sensor }) => sensors.has(sensor))
  const together = groupBy(
    rows.filter(({ version }) => version > 1),
    ({ validFrom, author, reason }) => JSON.stringify([validFrom, author, reason]),
  )
  return {
    basis: createHash('sha256')
      .update(
        rows
          .map(({ id }) => id)
          .toSorted()
          .join('\n'),
      )
      .digest('hex'),
    entered: [...together.values()]
      .flatMap((group) => {
        const [first] = group
        if (first === undefined) return []
        const { validFrom, author, reason } = first
        return [{ validFromEpochMs: validFrom, author, reason, faces: group.length }]
      })
      .toSorted((one, other) => one.validFromEpochMs - other.validFromEpochMs),
  }
}

const overtaken = (context: Context) =>
  problem(
    context,
    409,
    'Another version was saved meanwhile',
    'A calibration of this casing was saved since the survey was looked at. Nothing was saved; look at the survey as it is now, then decide again.',
  )

const refuse = (
  context: Context,
  issues: readonly { readonly code: string; readonly message: string; readonly column?: string | number }[],
) =>
  problem(
    context,
    400,
    'Correction not understood',
    'No calibration was saved; what is wrong stands in issues.',
    issues,
  )
