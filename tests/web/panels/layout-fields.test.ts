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

  it('takes whole numbers for places of columns and anything else for names', () => {
    const [wide] = layouts.filter((layout) => layout.channels.shape === 'wide')
    if (!wide) throw new Error('no wide layout')
    const layout = layoutSchema.parse(layoutOf({ ...fieldsOf(wide), timeColumns: '1 | Time of day' }))
    expect(layout.time.columns).toEqual([1, 'Time of day'])
  })
})
