import { createRoot } from 'solid-js'
import { afterEach, expect, test } from 'vitest'
import { columnsOf } from '../../../web/engine/columns.ts'
import { createAnswer } from '../../../web/panels/create-answer.ts'
import { type Analysis, offerAnalysis, reportSlices } from '../../../web/state/analysis.ts'

afterEach(() => offerAnalysis(null))

const settled = () => new Promise((resolve) => setTimeout(resolve, 0))

test('what was asked is asked again when the slices change: an answer from before a correction does not stay', async () => {
  let value = 1
  const ask = async () => ({ columns: columnsOf(1, { value: Float64Array.of(value) }), missing: [] })
  offerAnalysis({ site: 'small', keeper: { ask } } as unknown as Analysis)
  await createRoot(async (dispose) => {
    const asked = createAnswer(() => ({ sql: 'select 1', params: [], needs: [] }))
    await settled()
    expect(asked.answer()?.columns.number('value')[0]).toBe(1)
    value = 2
    reportSlices(1e6)
    await settled()
    expect(asked.answer()?.columns.number('value')[0]).toBe(2)
    dispose()
  })
})

test('an answer from hours alone says that it may be older', async () => {
  const ask = async () => ({ columns: columnsOf(0, {}), missing: [], isCoarser: true })
  offerAnalysis({ site: 'small', keeper: { ask } } as unknown as Analysis)
  await createRoot(async (dispose) => {
    const asked = createAnswer(() => ({ sql: 'select 1', params: [], needs: [] }))
    await settled()
    expect(asked.remarks()).toEqual([expect.stringContaining('up to an hour older than the newest')])
    dispose()
  })
})
