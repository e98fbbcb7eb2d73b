import { createHash } from 'node:crypto'
import { Hono } from 'hono'
import { rawLimits } from '#contract/raw-readings.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { rawAnswer } from '../slices/raw-answer.ts'
import { type Recipe, readRecipe } from '../slices/recipe.ts'
import { problem } from './problem.ts'
import { siteMustExist } from './site-must-exist.ts'

const dayMs = 86_400_000

/** Raised whenever the same question of the same store is answered otherwise. */
const answerForm = 1

/** Raw electrical readings behind some series, with the recipe by which values are made of them. It only reads. */
export function rawReadingRoutes(dependencies: Pick<Dependencies, 'store'>): Hono {
  const { store } = dependencies
  const routes = new Hono()
  const path = '/api/sites/:site/raw'
  // While only readings arrive the store hands out the same model, and the recipe of thousands of series stays.
  const recipes = new WeakMap<SiteModel, Promise<Recipe>>()
  const recipeOf = (site: string, model: SiteModel) => {
    const recipe = recipes.get(model) ?? readRecipe(store, site, model)
    recipes.set(model, recipe)
    recipe.catch(() => recipes.delete(model))
    return recipe
  }

  routes.use(path, siteMustExist(dependencies))
  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const series = [...new Set(context.req.queries('series') ?? [])].filter((id) => id !== '').sort()
    const [fromEpochMs, untilEpochMs] = ['from', 'until'].map((name) =>
      Date.parse(context.req.query(name) ?? ''),
    ) as [number, number]
    const refuse = (detail: string) => problem(context, 400, 'Query not understood', detail)
    if (series.length === 0 || !(untilEpochMs > fromEpochMs))
      return refuse(
        'Give series (point/measure, once or more), from and until (RFC 3339 instants with offset, until the later), for example ?series=PZ-01A/pore-pressure&from=2027-06-01T00:00:00Z&until=2027-07-01T00:00:00Z.',
      )
    if (series.length > rawLimits.series)
      return refuse(`That asks for ${series.length} series, and one question may name ${rawLimits.series}.`)
    if (untilEpochMs - fromEpochMs > rawLimits.days * dayMs)
      return refuse(`From and until may lie ${rawLimits.days} days apart at most. Ask for a shorter time.`)
    const model = (await store.getSite(site)) as SiteModel
    const revision = await store.revision(site)
    const asked = JSON.stringify([answerForm, site, revision, series, fromEpochMs, untilEpochMs])
    const etag = `"${createHash('sha256').update(asked).digest('base64url').slice(0, 22)}"`
    context.header('etag', etag)
    context.header('cache-control', 'no-cache')
    if (context.req.header('if-none-match')?.replace(/^W\//, '') === etag) return context.body(null, 304)
    const recipe = await recipeOf(site, model)
    const unknown = series.filter((id) => !recipe.numberOf.has(id))
    if (unknown.length > 0)
      return problem(
        context,
        404,
        'No such series',
        `This site has no series ${unknown.slice(0, 5).join(', ')}. Give ids as the site document lists them, point/measure.`,
      )
    const answer = await rawAnswer({
      store,
      site,
      model,
      recipe,
      revision,
      series,
      fromEpochMs,
      untilEpochMs,
    })
    if (!answer.ok)
      return problem(
        context,
        413,
        'Too many readings',
        answer.issues.map(({ message }) => message).join(' '),
        answer.issues,
      )
    return context.json(answer.value)
  })

  return routes
}
