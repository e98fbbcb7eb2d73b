import { Hono } from 'hono'
import type { Dependencies } from '../app.ts'
import { problem } from './problem.ts'
import { sliceAnswer, sliceNames } from './slice-answer.ts'

/**
 * Slice files: immutable under their name, which carries their content's hash; read whole or by a byte
 * range (RFC 9110), which is how the browser's engine fetches only the blocks that a query touches.
 */
export function sliceFiles({ publisher }: Pick<Dependencies, 'publisher'>): Hono {
  const routes = new Hono()
  routes.on(['GET', 'HEAD'], '/slices/:site/:name', async (context) => {
    const { site, name } = context.req.param()
    const path = sliceNames.test(name) ? await publisher.sliceFile(site, name) : null
    if (path === null)
      return problem(
        context,
        404,
        'No such slice',
        'This slice is not published (any more); ask for the list of slices again.',
      )
    return sliceAnswer(context, path, name)
  })
  return routes
}
