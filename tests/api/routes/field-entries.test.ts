import { createHash } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type FieldDocument, fieldResultsSchema } from '#contract/field-entry.ts'
import { problemSchema } from '#contract/problems.ts'
import { entryId, fieldEntry, note } from '../../support/field-entries.ts'
import { intakeSite } from '../../support/intake-site.ts'
import { type OpenField, openField, ownPage } from '../../support/open-field.ts'

const site = 'test-quay'
const path = `/api/sites/${site}/field-entries`
const nowEpochMs = Date.UTC(2027, 9, 21)

let open: OpenField
beforeAll(async () => {
  open = await openField(intakeSite(), () => nowEpochMs)
})
afterAll(() => open.close())

const post = (entries: unknown, headers: Record<string, string> = ownPage) =>
  open.app.request(path, { method: 'POST', headers, body: JSON.stringify({ entries }) })
const send = async (...entries: unknown[]) => {
  const answer = await post(entries)
  expect(answer.status).toBe(200)
  return fieldResultsSchema.parse(await answer.json())
}
/** What is listed once everything that follows from what was sent has been recorded: that goes on after the answer. */
const list = async (after = 0): Promise<FieldDocument> => {
  await open.field.settled()
  return (await open.app.request(`${path}?after=${after}`)).json()
}
const written = (number: number, text: string) => fieldEntry(number, note(text), { site })
const sha256 = (bytes: string | Uint8Array) => createHash('sha256').update(bytes).digest('hex')

describe('entries', () => {
  it('are judged one by one, answered in order, with the clock of the server', async () => {
    const answer = await send(
      written(1, 'first'),
      { ...written(2, 'no such kind'), body: { kind: 'song' } },
      'nothing',
      fieldEntry(3, note('of another site'), { site: 'elsewhere' }),
      fieldEntry(4, note('signed as a folder'), { site, author: 'site folder' }),
      written(1, 'first'),
      written(1, 'otherwise'),
      fieldEntry(5, note('signed with half a character'), { site, author: 'A. Walker \ud83d' }),
      fieldEntry(
        6,
        { kind: 'second-check', instrument: 'PZ \ud83d', entry: entryId(1), agreed: true, found: '' },
        { site },
      ),
    )
    expect(answer.serverEpochMs).toBe(nowEpochMs)
    expect(answer.results.map(({ id, outcome, issues }) => [id, outcome, issues?.[0]?.code])).toEqual([
      [entryId(1), 'accepted', undefined],
      [entryId(2), 'unreadable', 'entry-unreadable'],
      ['', 'unreadable', 'entry-unreadable'],
      [entryId(3), 'unreadable', 'other-site'],
      [entryId(4), 'unreadable', 'author-reserved'],
      [entryId(1), 'repeated', undefined],
      [entryId(1), 'differs', undefined],
      [entryId(5), 'unreadable', 'character-broken'],
      [entryId(6), 'unreadable', 'character-broken'],
    ])
    const document = await list()
    expect(document).toMatchObject({ site, serverEpochMs: nowEpochMs })
    expect(document.entries.map(({ number, differs, entry }) => [number, differs, entry.id])).toEqual([
      [1, false, entryId(1)],
      [2, true, entryId(1)],
    ])
    expect((await list(document.latest)).entries).toEqual([])
  })

  it('are refused from elsewhere, about no site, too many at once and in a body that is too large', async () => {
    for (const headers of [
      {},
      { 'sec-fetch-site': 'cross-site' },
      { authorization: `Bearer ${'t'.repeat(30)}` },
    ])
      expect((await post([], headers)).status).toBe(403)
    const nowhere = { method: 'POST', headers: ownPage, body: '{"entries":[]}' }
    expect((await open.app.request('/api/sites/nowhere/field-entries', nowhere)).status).toBe(404)
    expect((await open.app.request('/api/sites/nowhere/field-entries')).status).toBe(404)
    expect((await open.app.request(`${path}?after=soon`)).status).toBe(400)
    expect((await post(Array.from({ length: 101 }, () => 1))).status).toBe(400)
    expect((await post('x')).status).toBe(400)
    const large = await post(['x'.repeat(9 * 1024 ** 2)])
    expect(large.status).toBe(413)
    expect(problemSchema.parse(await large.json()).detail).toContain('8 MiB')
  })
})

describe('attachments', () => {
  const at = (sum: string) => `/api/sites/${site}/attachments/${sum}`
  const put = (
    sum: string,
    body: string | Uint8Array | ReadableStream,
    type = 'image/jpeg',
    headers = ownPage,
  ) =>
    open.app.request(at(sum), {
      method: 'PUT',
      headers: { ...headers, 'content-type': type },
      body,
      ...(body instanceof ReadableStream && { duplex: 'half' }),
    } as RequestInit)

  it('arrive after their entry, more than once, and the entry says what is missing', async () => {
    const bytes = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, ...Buffer.from('hardly a photo'))
    const sum = sha256(bytes)
    const attachments = [{ sha256: sum, bytes: bytes.length, mediaType: 'image/jpeg', name: 'wall.jpg' }]
    const entry = fieldEntry(20, note('with a photo'), { site, attachments })
    expect((await send(entry)).results[0]?.missingAttachments).toEqual([sum])
    const { latest } = await list()
    expect((await open.app.request(at(sum), { method: 'HEAD' })).status).toBe(404)
    for (let time = 0; time < 2; time++) {
      const answer = await put(sum, bytes)
      expect(answer.status).toBe(201)
      expect(await answer.json()).toEqual({ sha256: sum, bytes: bytes.length })
    }
    expect(
      (await list(latest)).entries.map(({ entry: { id }, missingAttachments }) => [id, missingAttachments]),
    ).toEqual([[entryId(20), []]])
    expect((await send(entry)).results[0]).toMatchObject({ outcome: 'repeated', missingAttachments: [] })
    const head = await open.app.request(at(sum), { method: 'HEAD' })
    expect([head.status, head.headers.get('content-length'), await head.text()]).toEqual([200, '18', ''])
    const got = await open.app.request(at(sum))
    expect(await got.bytes()).toEqual(bytes)
    expect(got.headers.get('content-type')).toBe('image/jpeg')
    expect(got.headers.get('content-disposition')).toBe('inline')
    expect(got.headers.get('x-content-type-options')).toBe('nosniff')
  })

  it.each(['image/jpeg', 'image/png', 'image/webp'])(
    'that do not begin as %s does are kept and handed out to be saved, never drawn',
    async (type) => {
      const bytes = `<script>alert(1)</script> ${type}`
      expect((await put(sha256(bytes), bytes, type)).status).toBe(201)
      const got = await open.app.request(at(sha256(bytes)))
      expect(got.headers.get('content-type')).toBe('application/octet-stream')
      expect(got.headers.get('content-disposition')).toMatch(/^attachment; /)
      expect(await got.text()).toBe(bytes)
    },
  )

  it.each(['image/svg+xml', 'text/html', 'application/xhtml+xml', 'application/pdf', 'nonsense'])(
    'of type %s are handed out to be saved, never drawn',
    async (type) => {
      const bytes = `<svg onload="alert(1)"/> ${type}`
      expect((await put(sha256(bytes), bytes, type)).status).toBe(201)
      const got = await open.app.request(at(sha256(bytes)))
      expect(got.headers.get('content-type')).toBe('application/octet-stream')
      expect(got.headers.get('content-disposition')).toMatch(/^attachment; /)
      expect(await got.text()).toBe(bytes)
    },
  )

  it('are refused, and not kept, with other bytes than named, too large, from elsewhere or badly named', async () => {
    const sum = sha256('one')
    const other = await put(sum, 'two')
    expect(other.status).toBe(422)
    expect(problemSchema.parse(await other.json()).detail).toContain(sha256('two'))
    expect((await open.app.request(at(sum))).status).toBe(404)
    expect((await open.app.request(at(sha256('two')))).status).toBe(404)
    const chunk = new Uint8Array(4 * 1024 ** 2)
    let chunks = 0
    const endless = new ReadableStream({
      pull(controller) {
        if (chunks++ > 100) controller.close()
        else controller.enqueue(chunk)
      },
    })
    const large = await put(sum, endless)
    expect(large.status).toBe(413)
    expect(problemSchema.parse(await large.json()).detail).toContain('64 MiB')
    expect(chunks).toBeLessThan(30)
    expect((await put(sum, 'one', 'image/jpeg', { ...ownPage, 'sec-fetch-site': 'cross-site' })).status).toBe(
      403,
    )
    expect((await put(sum.toUpperCase(), 'one')).status).toBe(400)
    expect((await open.app.request(at(sum))).status).toBe(404)
  })
})
