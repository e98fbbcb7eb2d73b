import { createHash } from 'node:crypto'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Hono } from 'hono'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { problemSchema } from '#contract/problems.ts'
import type { ReportList } from '#contract/reports.ts'
import type { IssuedReport, ReportManifest } from '#domain/report/report.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { keptPath } from '../../../api/intake/keep-file.ts'
import { reportRoutes } from '../../../api/routes/reports.ts'
import { securityHeaders } from '../../../api/routes/security-headers.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'
import { smallSite } from '../../contract/small-site.ts'
import { openAccounts } from '../../support/open-accounts.ts'
import { manifestFor } from '../../support/report-manifest.ts'

const path = '/api/sites/small-quay/reports'
const html = '<!doctype html><title>Monthly report 1</title><script>alert(1)</script>'
const pdf = '%PDF-1.7 \u0000\u00ff'
const sha256 = (text: string) => createHash('sha256').update(text).digest('hex')

function form(
  manifest: ReportManifest,
  changed: { readonly htmlSha256?: string; readonly pdf?: string } = {},
) {
  const sent = new FormData()
  const sums = { 'report.html': changed.htmlSha256 ?? sha256(html), 'report.pdf': sha256(pdf) }
  sent.set('issue', JSON.stringify({ manifest, sha256: sums }))
  sent.set('report.html', new Blob([html]), 'report.html')
  sent.set('report.pdf', new Blob([changed.pdf ?? pdf]), 'report.pdf')
  return sent
}

describe('issuing and reading', () => {
  let folder: string
  let store: Store
  let app: Hono
  let damaged: string | null
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'reports-'))
    store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
    await store.putSite(smallSite(), { author: 'tester', reason: 'test', atEpochMs: 0 })
    const now = () => Date.UTC(2027, 9, 6, 9)
    const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now })
    const { cutOffEpochMs } = manifestFor()
    const frozenSetOf = async (_: string, id: string) =>
      id === '0123456789abcdef' ? { cutOffEpochMs } : null
    app = new Hono()
    app.use(securityHeaders())
    damaged = null
    app.route('/', reportRoutes({ store, intake, now, frozenSetOf, damageOf: async () => damaged }))
  })
  afterEach(async () => {
    await store.close()
    await rm(folder, { recursive: true, force: true })
  })
  const post = (body: FormData | string) => app.request(path, { method: 'POST', body })
  const list = async (): Promise<ReportList> => (await app.request(path)).json()
  const faults = async (answer: Response) =>
    (problemSchema.parse(await answer.json()).issues ?? []).map(({ code }) => code)

  test('a report is kept byte for byte, listed, and no longer due', async () => {
    expect((await list()).due.map(({ kind }) => kind)).toEqual(['weekly', 'monthly'])
    const answer = await post(form(manifestFor()))
    expect(answer.status).toBe(201)
    const issued = (await answer.json()) as IssuedReport
    expect(issued.files.map((file) => file.sha256)).toEqual([sha256(html), sha256(pdf)])
    const { reports, due } = await list()
    expect(reports).toEqual([issued])
    expect(due.map(({ kind }) => kind)).toEqual(['weekly'])
    const file = await app.request(`${path}/${issued.id}/report.pdf`)
    expect(sha256(Buffer.from(await file.arrayBuffer()).toString('utf8'))).toBe(sha256(pdf))
    expect(file.headers.get('content-type')).toBe('application/pdf')
    expect((await app.request(`${path}/${issued.id}/manifest.json`)).status).toBe(404)
    expect((await app.request(`${path}/9/report.pdf`)).status).toBe(404)
  })

  test('nothing that stands in a report can run or load where it is opened', async () => {
    await post(form(manifestFor()))
    const { headers } = await app.request(`${path}/1/report.html`)
    const policy = headers.get('content-security-policy') ?? ''
    expect(policy.split('; ')).toEqual(expect.arrayContaining(['sandbox', "default-src 'none'"]))
    expect(policy).not.toContain('script-src')
    expect(headers.get('content-disposition')).toBe('attachment; filename="small-quay-monthly-1.html"')
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    // Every other answer keeps the policy of the page.
    expect((await app.request(path)).headers.get('content-security-policy')).toContain("script-src 'self'")
  })

  test('other bytes than the page said, or none, are refused and nothing is issued', async () => {
    const other = await post(form(manifestFor(), { htmlSha256: sha256('other') }))
    expect(other.status).toBe(400)
    expect(await faults(other)).toEqual(['other-bytes'])
    const cut = await post(form(manifestFor(), { pdf: pdf.slice(0, 5) }))
    expect(await faults(cut)).toEqual(['other-bytes'])
    expect(await faults(await post(form(manifestFor(), { pdf: '' })))).toEqual(['file-missing'])
    expect((await post('not a form')).status).toBe(400)
    expect((await list()).reports).toEqual([])
  })

  test('a manifest that does not hold is refused with the place of each fault', async () => {
    const unknown = await post(form(manifestFor({ frozenSet: 'f'.repeat(16) })))
    expect(await faults(unknown)).toEqual(['frozen-set-unknown'])
    const empty = manifestFor({ statement: { text: '  ', author: 'Ada Marsh', atEpochMs: 0 } })
    expect(await faults(await post(form(empty)))).toEqual(['statement-missing'])
    const more = await post(form({ ...manifestFor(), form: 2 } as never))
    expect(await faults(more)).toEqual(['body-unreadable'])
  })

  test('what is beyond any calendar, broken or under a reserved name is refused, not failed on', async () => {
    for (const changed of [
      { fromEpochMs: -9e15 },
      { untilEpochMs: 9e15 },
      { statement: { text: 'Broken \ud83d', author: 'Ada Marsh', atEpochMs: 0 } },
      { statement: { text: 'All went well.', author: folderAuthor, atEpochMs: 0 } },
    ])
      expect((await post(form(manifestFor(changed)))).status).toBe(400)
    expect((await list()).reports).toEqual([])
  })

  test('a file that is no longer what was issued, or is gone, is not given out', async () => {
    const issued = (await (await post(form(manifestFor()))).json()) as IssuedReport
    const path1 = `${path}/${issued.id}/report.html`
    const kept = keptPath(join(folder, 'files'), sha256(html))
    const lost = async () => (await list()).lost?.map(({ report, sentences }) => [report, ...sentences])
    expect(await lost()).toEqual([])
    await writeFile(kept, html.replace('alert', 'other'))
    const answer = await app.request(path1)
    expect(answer.status).toBe(500)
    expect(await faults(answer)).toEqual(['report-damaged'])
    // Of the same size: it is known since it was asked for.
    expect(await lost()).toEqual([[issued.id, expect.stringMatching(/^Its file report\.html is missing/)]])
    await rm(kept)
    expect((await app.request(path1)).status).toBe(500)
    expect(await lost()).toEqual([[issued.id, expect.stringMatching(/^Its file report\.html is missing/)]])
    await writeFile(kept, html)
    expect(await lost()).toEqual([])
    damaged = 'Part state is missing.'
    expect(await lost()).toEqual([[issued.id, 'It cannot be made again: Part state is missing.']])
    expect(await (await app.request(path1)).text()).toBe(html)
  })

  test('more than the limit is refused before it is read', async () => {
    const answer = await app.request(path, {
      method: 'POST',
      body: form(manifestFor()),
      headers: { 'content-length': String(61 * 1024 ** 2) },
    })
    expect(answer.status).toBe(413)
  })

  test('of two people at once one has the number, and the other is told', async () => {
    const both = await Promise.all([post(form(manifestFor())), post(form(manifestFor()))])
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409])
    expect((await list()).reports).toHaveLength(1)
  })
})

test('clients read reports; who changes records issues them, under the own name', async () => {
  const open = await openAccounts()
  try {
    await open.join('wren', 'small-quay', 'viewer')
    await open.join('rook', 'small-quay', 'engineer')
    const as = async (name: string, body?: FormData) =>
      open.app.request(path, {
        headers: { cookie: await open.cookieOf(name), 'sec-fetch-site': 'same-origin' },
        ...(body ? { method: 'POST', body } : {}),
      })
    expect((await as('wren')).status).toBe(200)
    expect((await as('wren', form(manifestFor()))).status).toBe(403)
    const answer = await as('rook', form(manifestFor()))
    expect(answer.status).toBe(400)
    const codes = problemSchema.parse(await answer.json()).issues?.map(({ code }) => code)
    expect(codes).toContain('other-author')
    expect(
      (
        await open.app.request('/api/sites/other-quay/reports', {
          headers: { cookie: await open.cookieOf('wren') },
        })
      ).status,
    ).toBe(404)
  } finally {
    await open.close()
  }
})
