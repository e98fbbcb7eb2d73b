import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { palettes } from '../../../../web/ui/palettes.ts'
import { createRegister, type Register } from '../../../../web/views/register/create-register.ts'
import type { RegisterRow } from '../../../../web/views/register/register-rows.ts'

const row = (place: number, more: Partial<RegisterRow> = {}): RegisterRow => ({
  id: `PZ-${place}/pore-pressure`,
  point: `PZ-${place}`,
  instrument: `PZ-${place}`,
  kind: 'piezometer',
  measure: 'pore-pressure',
  unit: 'kPa',
  decimals: 1,
  standing: 'within',
  silent: false,
  value: place,
  ageMs: 60_000,
  share: 0.5,
  logger: 'LG-1 / 1',
  critical: false,
  marks: [],
  later: '',
  contradicted: '',
  alerts: null,
  ...more,
})
const props = (rows: readonly RegisterRow[], selected: readonly string[] = []) => ({
  rows,
  order: { column: 'point', descending: false } as const,
  selected: new Set(selected),
  atEpochMs: 0,
  levelNames: ['Level 1'],
  palette: palettes.paper,
})
const many = Array.from({ length: 2000 }, (_, place) => row(place))

let host: HTMLElement
let register: Register
const select = vi.fn()
const sortBy = vi.fn()
const rows = () => [...host.querySelectorAll<HTMLElement>('tr[data-row]')]
const press = (key: string) =>
  (document.activeElement as HTMLElement).dispatchEvent(
    new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }),
  )

beforeEach(() => {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      disconnect() {}
    },
  )
  host = document.createElement('div')
  document.body.replaceChildren(host)
  register = createRegister(host, props(many), { select, sortBy })
})

afterEach(() => {
  register.destroy()
  vi.unstubAllGlobals()
  vi.clearAllMocks()
})

describe('register', () => {
  it('draws only the rows in sight and says how many there are', () => {
    expect(rows().length).toBeGreaterThan(0)
    expect(rows().length).toBeLessThan(60)
    expect(host.querySelector('table')?.getAttribute('aria-rowcount')).toBe('2001')
  })

  it('has one row in the order of focus, and arrow keys carry it along through all rows', () => {
    expect(rows().filter((one) => one.tabIndex === 0)).toHaveLength(1)
    rows()[0]?.focus()
    for (let step = 0; step < 30; step += 1) press('ArrowDown')
    expect(document.activeElement?.getAttribute('aria-rowindex')).toBe('32')
    press('End')
    expect(document.activeElement?.textContent).toContain('PZ-1999')
    expect(rows().filter((one) => one.tabIndex === 0)).toHaveLength(1)
  })

  it('says beside the state that newer data contradict a verdict, and keeps the value', () => {
    register.update(props([row(1, { contradicted: 'newer data contradict verdict V-1', value: 42 })]))
    expect(rows()[0]?.textContent).toContain('; newer data contradict verdict V-1')
    expect(rows()[0]?.textContent).toContain('42.0')
  })

  it('selects by Enter and by a tap', () => {
    rows()[0]?.focus()
    press('ArrowDown')
    press('Enter')
    expect(select).toHaveBeenLastCalledWith(many[1])
    rows()[3]?.querySelector('td')?.click()
    expect(select).toHaveBeenLastCalledWith(many[3])
  })

  it('keeps the focus on its row when values change under it', () => {
    rows()[0]?.focus()
    press('ArrowDown')
    register.update(props(many.map((one) => ({ ...one, value: 7 }))))
    expect(document.activeElement?.textContent).toContain('PZ-1')
    expect(document.activeElement?.textContent).toContain('7.0 kPa')
  })

  it('marks what is selected, and sorts by its headings', () => {
    register.update(props(many, [many[2]?.id ?? '']))
    expect(rows().filter((one) => one.getAttribute('aria-selected') === 'true')).toHaveLength(1)
    host.querySelector<HTMLElement>('thead .register-value button')?.click()
    expect(sortBy).toHaveBeenCalledWith('value')
    expect(host.querySelector('thead .register-point')?.getAttribute('aria-sort')).toBe('ascending')
  })

  it('shows no share, and says so, where there is no current data', () => {
    register.update(props([row(1, { standing: 'late', silent: true, ageMs: null, value: null })]))
    const text = rows()[0]?.textContent ?? ''
    expect(text).toContain('No current data')
    expect(text).toContain('no reading')
    expect(text).not.toContain('%')
  })

  it('puts names in as text, whatever they hold', () => {
    register.update(props([row(1, { point: '<img src=x>' })]))
    expect(host.querySelector('img')).toBeNull()
    expect(rows()[0]?.textContent).toContain('<img src=x>')
  })

  it('looks the same after the same update twice', () => {
    register.update(props(many))
    const once = host.innerHTML
    register.update(props(many))
    expect(host.innerHTML).toBe(once)
  })
})
