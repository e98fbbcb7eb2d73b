import { render } from 'solid-js/web'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { ReportList } from '#contract/reports.ts'
import type { IssuedReport, ReportManifest } from '#domain/report/report.ts'
import { createMaking } from '../../../../web/panels/reports/create-making.ts'
import { createReports } from '../../../../web/panels/reports/create-reports.ts'
import { IssuedReports } from '../../../../web/panels/reports/IssuedReports.tsx'
import { MakeReport } from '../../../../web/panels/reports/MakeReport.tsx'
import { RebuildReport } from '../../../../web/panels/reports/RebuildReport.tsx'
import { showSite } from '../../../../web/state/site-document.ts'
import { manifestFor } from '../../../support/report-manifest.ts'
import { presentEpochMs, smallSite } from '../../state/small-site.ts'

const html = '<h2>Values</h2><p>1.2 mm</p>'
const bytes = (text: string) => new TextEncoder().encode(text)
const sha256 = async (text: string) =>
  Buffer.from(await crypto.subtle.digest('SHA-256', bytes(text))).toString('hex')
const made = (page = html) => ({ html: bytes(page), pdf: bytes('%PDF-'), pages: 41, notInFont: [] })

let issued: IssuedReport
let list: ReportList
let sent: { path: string; body: unknown }[]
let refuse: { status: number; body: unknown } | null
let stop = () => {}

beforeEach(async () => {
  issued = {
    id: 4,
    manifest: manifestFor({ site: 'small' }),
    files: [
      { name: 'report.html', sha256: await sha256(html), bytes: html.length },
      { name: 'report.pdf', sha256: await sha256('%PDF-'), bytes: 5 },
    ],
    issuedBy: 'Ada Marsh',
    issuedAtEpochMs: presentEpochMs,
  }
  list = {
    reports: [issued],
    due: [{ kind: 'weekly', fromEpochMs: Date.UTC(2027, 4, 3), untilEpochMs: Date.UTC(2027, 4, 10) }],
    asOfEpochMs: presentEpochMs,
    software: '0.1.0',
  }
  sent = []
  refuse = null
  showSite(smallSite())
  vi.stubGlobal('fetch', async (path: string, request: RequestInit = {}) => {
    if (request.method === 'POST') {
      sent.push({
        path,
        body: request.body instanceof FormData ? request.body : JSON.parse(String(request.body)),
      })
      if (path.endsWith('/frozen')) return json(frozen())
      if (refuse) return json(refuse.body, refuse.status, 'application/problem+json')
      return json({ ...issued, id: 5 }, 201)
    }
    return path.endsWith('.html') ? new Response(html) : json(list)
  })
})
afterEach(() => {
  stop()
  document.body.replaceChildren()
  vi.unstubAllGlobals()
  localStorage.clear()
})

const json = (content: unknown, status = 200, type = 'application/json') =>
  new Response(JSON.stringify(content), { status, headers: { 'content-type': type } })
const frozen = () => ({
  id: 'feedfeedfeedfeed',
  site: 'small',
  cutOffEpochMs: presentEpochMs,
  software: '0.1.0',
})
const text = () => document.body.textContent ?? ''
const button = (name: string) =>
  [...document.querySelectorAll('button')].find((one) =>
    one.textContent?.trim().startsWith(name),
  ) as HTMLButtonElement
const fill = (label: string, value: string) => {
  const found = [...document.querySelectorAll('label')].find((one) => one.textContent?.trim() === label)
  const input = document.getElementById(found?.htmlFor ?? '') as HTMLInputElement
  input.value = value
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
}

test('a list that is fetched again leaves open what is read', async () => {
  const reports = createReports()
  stop = render(() => <IssuedReports reports={reports} make={() => {}} />, document.body)
  await reports.refresh()
  const details = document.querySelector('details') as HTMLDetailsElement
  details.open = true
  await reports.refresh()
  expect(document.querySelector('details')).toBe(details)
  list = { ...list, reports: [{ ...issued, id: 5 }, issued] }
  await reports.refresh()
  expect([...document.querySelectorAll('details')].map(({ open }) => open)).toEqual([false, true])
})

test('what of a report is damaged or gone stands with it', async () => {
  list = { ...list, lost: [{ report: 4, sentences: ['It cannot be made again: Part state is missing.'] }] }
  const reports = createReports()
  stop = render(() => <IssuedReports reports={reports} make={() => {}} />, document.body)
  await reports.refresh()
  expect(document.querySelector('.issued-reports .trouble')?.textContent).toBe(
    'It cannot be made again: Part state is missing.',
  )
})

test('what is due and what was issued, with files and their hashes', async () => {
  const reports = createReports()
  const wanted = vi.fn()
  stop = render(() => <IssuedReports reports={reports} make={wanted} />, document.body)
  expect(text()).toContain('Fetching the list')
  await reports.refresh()
  expect(text()).toContain('Weekly report for 3 May 2027 to 9 May 2027: not issued yet.')
  button('Make it').click()
  expect(wanted).toHaveBeenCalledWith('weekly')
  expect(text()).toContain('Monthly report 1')
  expect(text()).toContain(issued.files[0]?.sha256)
  const link = document.querySelector<HTMLAnchorElement>('.report-files a')
  expect(link?.getAttribute('href')).toBe('/api/sites/small/reports/4/report.html')
})

test('a report is made from data that were frozen for it, looked through, and issued as it was looked at', async () => {
  const reports = createReports()
  await reports.refresh()
  const run = vi.fn(async (_: ReportManifest) => made())
  const done = vi.fn()
  stop = render(
    () => <MakeReport reports={reports} kind="monthly" done={done} making={createMaking(run)} />,
    document.body,
  )
  expect(button('Freeze the data').disabled).toBe(true)
  expect(text()).toContain('Write your statement first')
  fill('Your statement', 'Nothing moved.')
  fill('Your name', 'Ada Marsh')
  expect(button('Freeze the data').disabled).toBe(false)
  button('Freeze the data').click()
  await vi.waitFor(() => expect(document.querySelector('iframe')).not.toBeNull())
  expect(sent[0]).toEqual({
    path: '/api/sites/small/frozen',
    body: { cutOffEpochMs: null, author: 'Ada Marsh' },
  })
  expect(run.mock.calls[0]?.[0]).toMatchObject({
    kind: 'monthly',
    number: 2,
    previousNumber: 1,
    previousFrozenSet: issued.manifest.frozenSet,
    frozenSet: 'feedfeedfeedfeed',
    statement: { text: 'Nothing moved.', author: 'Ada Marsh' },
  })
  const preview = document.querySelector('iframe')
  expect(preview?.getAttribute('sandbox')).toBe('')
  expect(preview?.getAttribute('srcdoc')).toBe(html)
  expect(document.querySelector('.report-preview a')?.getAttribute('download')).toBe(
    'small-monthly-2-not-issued.pdf',
  )
  // What was looked at is not what the form says now.
  fill('Your statement', 'Something moved.')
  expect(button('Issue it')).toBeUndefined()
  fill('Your statement', 'Nothing moved.')
  button('Issue it').click()
  await vi.waitFor(() => expect(done).toHaveBeenCalled())
  const form = sent[1]?.body as FormData
  expect(JSON.parse(String(form.get('issue'))).sha256).toEqual({
    'report.html': await sha256(html),
    'report.pdf': await sha256('%PDF-'),
  })
  expect((form.get('report.pdf') as File).size).toBe(5)
})

test('the server’s refusal is told, and stopping leaves the form as it is', async () => {
  const reports = createReports()
  await reports.refresh()
  let ended = false
  const run = (_: ReportManifest, { signal }: { signal?: AbortSignal } = {}) =>
    new Promise<never>((_, reject) =>
      signal?.addEventListener('abort', () => {
        ended = true
        reject(signal.reason)
      }),
    )
  stop = render(
    () => <MakeReport reports={reports} kind="weekly" done={() => {}} making={createMaking(run as never)} />,
    document.body,
  )
  fill('Your statement', 'Nothing moved.')
  fill('Your name', 'Ada Marsh')
  button('Freeze the data').click()
  await vi.waitFor(() => expect(document.querySelector('progress')).not.toBeNull())
  await vi.waitFor(() => expect(sent).toHaveLength(1))
  await new Promise((resolve) => setTimeout(resolve, 20))
  button('Stop').click()
  await vi.waitFor(() => expect(document.querySelector('progress')).toBeNull())
  expect(ended).toBe(true)
  expect(document.querySelector('.trouble')).toBeNull()
  expect(button('Freeze the data').disabled).toBe(false)
})

test('made again it is the same, or the first block that differs is named', async () => {
  const reports = createReports()
  await reports.refresh()
  let page = html
  const making = () => createMaking((async () => made(page)) as never)
  stop = render(() => <RebuildReport report={issued} reports={reports} making={making()} />, document.body)
  expect(text()).not.toContain('which may compute and draw otherwise')
  button('Make again').click()
  await vi.waitFor(() => expect(text()).toContain(`report.pdf: same SHA-256 as issued`))
  expect(text()).toContain(`report.html: same SHA-256 as issued, ${issued.files[0]?.sha256}`)
  stop()
  document.body.replaceChildren()
  page = html.replace('1.2', '1.3')
  const older = { ...issued, manifest: manifestFor({ site: 'small', software: '0.0.9' }) }
  stop = render(() => <RebuildReport report={older} reports={reports} making={making()} />, document.body)
  expect(text()).toContain('composed by version 0.0.9; this is 0.1.0, which may compute and draw otherwise')
  button('Make again').click()
  await vi.waitFor(() => expect(text()).toContain('report.html differs. First in “1.2 mm”, under “Values”'))
})
