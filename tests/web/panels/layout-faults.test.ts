import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { layoutSchema } from '#contract/layout.ts'
import { faultsOfFields, faultsOfIssues } from '../../../web/panels/layout-faults.ts'
import { fieldsOf, type LayoutFields, layoutOf } from '../../../web/panels/layout-fields.ts'

const layouts = readdirSync('sample-site/layouts').map((name) =>
  layoutSchema.parse(JSON.parse(readFileSync(`sample-site/layouts/${name}`, 'utf8'))),
)
const fieldsOfShape = (shape: 'wide' | 'long'): LayoutFields => {
  const found = layouts.find(({ channels }) => channels.shape === shape)
  if (!found) throw new Error(`no ${shape} layout`)
  return fieldsOf(found)
}

describe('what is wrong with a layout in a form', () => {
  it.each(layouts.map((layout) => [layout.id, layout] as const))('nothing with %s', (_id, layout) => {
    expect(faultsOfFields(fieldsOf(layout))).toEqual([])
  })

  it.each([
    ['fileNamePattern', '[bench'],
    ['namePattern', '(?<channel>.+'],
    ['namePattern', '^(.+)$'],
    ['timeZone', 'Atlantic/Atlantis'],
    ['timeZone', ''],
  ] as const)('%s that says "%s" is told at its field', (place, text) => {
    const places = faultsOfFields({ ...fieldsOfShape('wide'), [place]: text }).map((fault) => fault.place)
    expect(new Set(places)).toEqual(new Set([place]))
  })

  // Every field that the schema of a layout can refuse, spoilt in turn, as the server spells its path.
  it.each([
    ['wide', 'id', 'Bench Files'],
    ['wide', 'title', ' '],
    ['wide', 'encoding', 'latin'],
    ['wide', 'headerRows', 'two'],
    ['wide', 'namesRow', '0'],
    ['wide', 'timeColumns', ''],
    ['wide', 'timePattern', ''],
    ['wide', 'faultCodes', 'none'],
    ['wide', 'ignored', '0'],
    ['long', 'channelColumn', ''],
    ['long', 'loggerColumn', '0'],
    ['long', 'valueColumn', '0'],
  ] as const)('a refused field of a %s layout is found: %s "%s"', (shape, place, text) => {
    const parsed = layoutSchema.safeParse(layoutOf({ ...fieldsOfShape(shape), [place]: text }))
    const issues = (parsed.error?.issues ?? []).map(({ path, message }) => ({
      code: 'layout-unreadable',
      message,
      column: ['layout', ...path].join('.'),
    }))
    expect(issues.length).toBeGreaterThan(0)
    expect(new Set(faultsOfIssues(issues).map((fault) => fault.place))).toEqual(new Set([place]))
  })

  it.each([
    ['backsightColumn', ''],
    ['setupColumn', '0'],
    ['benchmarks', ''],
    ['benchmarks', 'VB-3 = high'],
    ['benchmarks', 'VB-3 = 5.2 | VB-3 = 5.3'],
    ['levelBook', 'logger'],
    ['closure', '0'],
    ['closure', 'four'],
    ['share', 'length'],
  ] as const)('and of a level book: %s "%s"', (place, text) => {
    const book = {
      levelBook: 'yes',
      lineColumn: 'line',
      setupColumn: 'setup',
      behindColumn: 'behind',
      backsightColumn: 'back',
      distanceColumn: 'metres',
      benchmarks: 'VB-3 = 5.214',
      closure: '4',
    }
    const spoilt = text === 'logger' ? { loggerColumn: 'crew' } : { [place]: text }
    const parsed = layoutSchema.safeParse(
      layoutOf({ ...fieldsOfShape('long'), loggerColumn: '', ...book, ...spoilt }),
    )
    const issues = (parsed.error?.issues ?? []).map(({ path, message }) => ({
      code: 'layout-unreadable',
      message,
      column: ['layout', ...path].join('.'),
    }))
    expect(new Set(faultsOfIssues(issues).map((fault) => fault.place))).toEqual(new Set([place]))
  })

  it('what belongs to no field is told with its path', () => {
    const issue = {
      code: 'layout-unreadable',
      message: 'layout.colour: Unrecognized key',
      column: 'layout.colour',
    }
    expect(faultsOfIssues([issue])).toEqual([
      { place: null, path: 'layout.colour', message: 'Unrecognized key' },
    ])
  })
})
