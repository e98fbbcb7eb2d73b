import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { layoutSchema } from '#contract/layout.ts'
import { fieldsOf, layoutOf } from '../../../web/panels/layout-fields.ts'

const layouts = readdirSync('sample-site/layouts').map((name) =>
  layoutSchema.parse(JSON.parse(readFileSync(`sample-site/layouts/${name}`, 'utf8'))),
)

describe('a layout in a form', () => {
  it.each(layouts.map((layout) => [layout.id, layout] as const))('%s comes back as it was', (_id, layout) => {
    const back = layoutSchema.parse(layoutOf(fieldsOf(layout)))
    expect({ ...back, absent: [...back.absent].sort() }).toEqual({
      ...layout,
      absent: [...new Set(['', ...layout.absent])].sort(),
    })
  })

  it('a level book comes back with its benchmarks', () => {
    const long = layouts.find(({ id }) => id === 'levelling-survey')
    if (!long) throw new Error('no long layout')
    const levelBook = {
      lineColumn: 'line',
      setupColumn: 2,
      behindColumn: 'behind',
      backsightColumn: 'back',
      distanceColumn: 'metres',
      benchmarks: [
        { name: 'VB-3', levelMetres: 5.214 },
        { name: 'a = b', levelMetres: -1 },
      ],
      closureMmPerRootKm: 4,
      share: 'distance' as const,
      turningPoints: null,
    }
    const fields = fieldsOf({ ...long, levelBook })
    expect(fields.benchmarks).toBe('VB-3 = 5.214 | a = b = -1')
    expect(layoutSchema.parse(layoutOf(fields)).levelBook).toEqual(levelBook)
    expect(layoutSchema.parse(layoutOf({ ...fields, levelBook: 'no' })).levelBook).toBeUndefined()
    const without = layoutSchema.safeParse(layoutOf({ ...fields, benchmarks: 'VB-3 | VB-4 = high' }))
    expect(without.error?.issues.map(({ path }) => path.join('.'))).toEqual([
      'levelBook.benchmarks.0.levelMetres',
      'levelBook.benchmarks.1.levelMetres',
    ])
  })

  it('takes whole numbers for places of columns and anything else for names', () => {
    const [wide] = layouts.filter((layout) => layout.channels.shape === 'wide')
    if (!wide) throw new Error('no wide layout')
    const layout = layoutSchema.parse(layoutOf({ ...fieldsOf(wide), timeColumns: '1 | Time of day' }))
    expect(layout.time.columns).toEqual([1, 'Time of day'])
  })
})
