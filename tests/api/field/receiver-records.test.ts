import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { problemSchema } from '#contract/problems.ts'
import { receiverRecordsSchema } from '#contract/receiver-records.ts'
import { readReceiverRecords } from '../../../api/field/read-receiver-records.ts'
import { fieldEntry } from '../../support/field-entries.ts'
import { coverageTest, fieldSite, packets } from '../../support/field-site.ts'
import { type OpenField, openField, ownPage } from '../../support/open-field.ts'

const site = 'test-quay'
const head = 'Test,Spreading factor,Received,Signal dBm\n'

describe('a receiver’s record by file', () => {
  it('is read test by test, whatever the order of rows and columns, with or without signals', () => {
    expect(readReceiverRecords('r.csv', `${head}T-1,7,3,-101.5\nT-2,12,0,\n\nT-1,9,10,-98\n`)).toEqual({
      ok: true,
      value: [
        {
          kind: 'receiver-record',
          test: 'T-1',
          factors: [
            { spreadingFactor: 7, received: 3, signalDbm: -101.5 },
            { spreadingFactor: 9, received: 10, signalDbm: -98 },
          ],
        },
        {
          kind: 'receiver-record',
          test: 'T-2',
          factors: [{ spreadingFactor: 12, received: 0, signalDbm: null }],
        },
      ],
    })
    const turned = readReceiverRecords('r.csv', '\ufeffreceived,spreading-factor,test\r\n3,7,T-1\r\n')
    expect(turned).toMatchObject({ ok: true, value: [{ test: 'T-1' }] })
  })

  it.each<[string, (string | number | undefined)[][]]>([
    ['', [[undefined, undefined, 'rows-missing']]],
    [head, [[undefined, undefined, 'rows-missing']]],
    ['test,received\nT-1,3\n', [[1, 'spreading factor', 'column-missing']]],
    [`${head}T-1,7,3,\nT-1,7,4,\n`, [[3, 'spreading factor', 'factor-repeated']]],
    [
      `${head},6,-1,5\nT-1,7.5,x,none\n`,
      [
        [2, 'test', 'test-missing'],
        [2, 'spreading factor', 'number-expected'],
        [2, 'received', 'number-expected'],
        [2, 'signal', 'number-expected'],
        [3, 'spreading factor', 'number-expected'],
        [3, 'received', 'number-expected'],
        [3, 'signal', 'number-expected'],
      ],
    ],
    [`${head}"T-1,7,3,\n`, [[2, 1, 'quote-unclosed']]],
  ])('with faults is refused whole, by line and column: %j', (text, expected) => {
    const read = readReceiverRecords('r.csv', text)
    expect(read.ok ? [] : read.issues.map(({ line, column, code }) => [line, column, code])).toEqual(
      expect.arrayContaining<unknown>(expected),
    )
  })
})

describe('sent from the page', () => {
  let open: OpenField
  beforeEach(async () => {
    open = await openField(fieldSite())
  })
  afterEach(() => open.close())
  const post = (
    body: string | Uint8Array,
    query = '?name=receiver.csv&author=C.%20Desk',
    headers: object = ownPage,
  ) =>
    open.app.request(`/api/sites/${site}/receiver-records${query}`, {
      method: 'POST',
      headers: headers as Record<string, string>,
      body: body as string,
    })

  it('it is kept byte for byte and matched, once however often it comes; a later file stands in its place', async () => {
    await open.field.add(site, [fieldEntry(1, coverageTest('T-1', packets(7, 10, null)), { site })])
    const text = `${head}T-1,7,3,-101\nT-2,9,4,\n`
    const first = await post(text)
    expect(first.status).toBe(201)
    const { sha256, records } = receiverRecordsSchema.parse(await first.json())
    expect(records.map(({ test, outcome }) => [test, outcome])).toEqual([
      ['T-1', 'accepted'],
      ['T-2', 'accepted'],
    ])
    await open.field.settled()
    const again = receiverRecordsSchema.parse(await (await post(text)).json())
    expect(again.records.map(({ outcome }) => outcome)).toEqual(['repeated', 'repeated'])
    const file = await open.app.request(`/api/sites/${site}/attachments/${sha256}`)
    expect(await file.text()).toBe(text)
    const rows = async () => {
      await open.field.settled()
      return (await open.store.getSite(site))?.coverageTests.map(({ test, received }) => [test, received])
    }
    expect(await rows()).toEqual([['T-1', 3]])
    await post(`${head}T-1,7,5,-101\n`)
    expect(await rows()).toEqual([['T-1', 5]])
    const { entries } = await open.field.list(site, 0)
    expect(entries).toHaveLength(4)
    expect(entries.map(({ missingAttachments }) => missingAttachments.length)).toEqual([0, 0, 0, 0])
    expect(new Set(entries.slice(1).map(({ entry }) => entry.author))).toEqual(new Set(['C. Desk']))
  })

  it('is refused with faults, without names, from elsewhere and too large', async () => {
    const wrong = await post(`${head}T-1,7,many,\n`)
    expect(wrong.status).toBe(422)
    const { issues } = problemSchema.parse(await wrong.json())
    expect(issues).toMatchObject([{ file: 'receiver.csv', line: 2, column: 'received', value: 'many' }])
    expect((await post(new Uint8Array([0xff, 0xfe, 0x41]))).status).toBe(422)
    for (const query of ['', '?name=r.csv', '?name=a/b.csv&author=me', '?name=r.csv&author=site%20folder'])
      expect((await post(head, query)).status).toBe(400)
    expect((await post(head, undefined, {})).status).toBe(403)
    expect((await post('x'.repeat(5 * 1024 ** 2))).status).toBe(413)
    expect((await open.field.list(site, 0)).entries).toEqual([])
  })
})
