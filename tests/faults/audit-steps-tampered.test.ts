import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { auditHeadFile } from '../../api/store/audit-head.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { NewAlertEvent } from '../../api/store/store.ts'
import { smallSite } from '../contract/small-site.ts'
import { manifestFor } from '../support/report-manifest.ts'
import { tamper } from '../support/tamper.ts'

/** What was done about an alert, and who decided about a level, altered by SQL in a copy of one data file. */
let folder: string
let whole: string
let copies = 0

const site = 'small-quay'
const at = Date.UTC(2027, 9, 21)
const step = (event: Omit<NewAlertEvent, 'alert' | 'atEpochMs'>): NewAlertEvent => ({
  alert: 1,
  atEpochMs: at,
  ...event,
})

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'audit-steps-'))
  whole = join(folder, 'whole.duckdb')
  const store = await openDuckdbStore({ file: whole })
  await store.putSite(smallSite(), { author: 'A. Tester', reason: 'first load', atEpochMs: at })
  const cause = { kind: 'drill', duty: 'Monitoring engineer', reason: 'monthly' } as const
  await store.appendAlertEvents(site, [
    {
      ...step({ by: null, happening: { kind: 'raised', cause, late: false, untoldBecause: null } }),
      alert: null,
    },
    step({ by: 'Ada Marsh', account: 'one', happening: { kind: 'acknowledged', note: 'going there' } }),
    step({ by: null, happening: { kind: 'unreachable', duty: 'Monitoring engineer' } }),
  ])
  const proposal = { atEpochMs: at, changes: [], warnings: [] }
  const long = 'x'.repeat(5000)
  await store.addProposal(site, 'level', { ...proposal, author: 'Ada Marsh', account: 'one', reason: long })
  const decision = {
    kind: 'rejected',
    by: 'Ben Holm',
    account: 'two',
    reason: 'too high',
    atEpochMs: at,
  } as const
  await store.closeProposal(site, 'level', 1, decision)
  const evidence = { sandbox: '?', effects: [], alsoChanges: [] }
  const correction = { atEpochMs: at, reason: 'zero', changes: [], evidence }
  await store.addProposal(site, 'correction', { ...correction, author: 'Ada Marsh', account: 'one' })
  await store.closeProposal(site, 'correction', 1, { ...decision, kind: 'withdrawn', by: 'Ada Marsh' })
  const set = {
    id: 'a'.repeat(16),
    site,
    cutOffEpochMs: at,
    frozenAtEpochMs: at,
    frozenBy: 'Ada Marsh',
    revision: 1,
    software: 'test',
    readings: { all: 0, provisional: 0 },
    parts: [],
  }
  const signature = { author: 'Ada Marsh', account: 'one', reason: '', atEpochMs: at }
  await store.addFrozenSet(set, await store.markOf(site), signature)
  const files = [{ name: 'report.pdf', sha256: 'a'.repeat(64), bytes: 5 }] as const
  await store.addReport(site, { manifest: manifestFor(), files }, signature)
  await store.close()
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function foundAfter(...sql: readonly string[]) {
  const file = join(folder, `copy-${copies++}.duckdb`)
  copyFileSync(whole, file)
  copyFileSync(auditHeadFile(whole), auditHeadFile(file))
  if (sql.length > 0) await tamper(file, ...sql)
  const store = await openDuckdbStore({ file })
  const { firstBreak, recordFaults, recordFaultCount } = await store.verifyAudit()
  await store.close()
  return { firstBreak, count: recordFaultCount, said: recordFaults.map(({ sentence }) => sentence).join(' ') }
}

it('nothing is found where nothing was done', async () => {
  expect(await foundAfter()).toEqual({ firstBreak: null, count: 0, said: '' })
})

it.each([
  [
    'who took an alert up',
    `UPDATE alert_event SET "by" = 'C. Nobody' WHERE number = 2`,
    'Step 2 of alert 1 at small-quay is not as entry',
  ],
  [
    'what was said',
    `UPDATE alert_event SET body = replace(body, 'going', 'went') WHERE number = 2`,
    'Step 2 of alert 1 at small-quay is not as entry',
  ],
  [
    'a last step that is gone',
    'DELETE FROM alert_event WHERE number = 3',
    'Step 3 of alert 1 at small-quay is gone',
  ],
  [
    'a step put in',
    `INSERT INTO alert_event SELECT * REPLACE (4 AS number, 'C. Nobody' AS "by") FROM alert_event WHERE number = 2`,
    'Step 4 of alert 1 at small-quay stands in the data file without an entry',
  ],
  [
    'whose account proposed a level, so that its author may decide it',
    `UPDATE level_proposal SET author = 'C. Nobody', account = 'three'`,
    'Step 1 of level proposal 1 at small-quay is not as entry',
  ],
  [
    'a long proposal',
    `UPDATE level_proposal SET body = replace(body, 'xxx', 'xxy')`,
    'Step 1 of level proposal 1 at small-quay is not as entry',
  ],
  [
    'whose account offered a correction',
    `UPDATE correction_proposal SET account = 'three'`,
    'Step 1 of correction proposal 1 at small-quay is not as entry',
  ],
  [
    'what became of a correction',
    `UPDATE correction_decision SET kind = 'approved'`,
    'Step 2 of correction proposal 1 at small-quay is not as entry',
  ],
  [
    'how it was decided',
    `UPDATE level_decision SET kind = 'approved'`,
    'Step 2 of level proposal 1 at small-quay is not as entry',
  ],
  [
    'a decision that is gone',
    'DELETE FROM level_decision',
    'Step 2 of level proposal 1 at small-quay is gone',
  ],
  [
    'who froze data',
    `UPDATE frozen_set SET body = replace(body, 'Ada Marsh', 'C. Nobody')`,
    'Step 1 of frozen set aaaaaaaaaaaaaaaa at small-quay is not as entry',
  ],
  [
    'frozen data that are gone',
    'DELETE FROM frozen_set',
    'Step 1 of frozen set aaaaaaaaaaaaaaaa at small-quay is gone',
  ],
  [
    'what a report that was issued says of its file',
    `UPDATE report SET body = replace(body, 'aaaa', 'bbbb')`,
    'Step 1 of report ["monthly","1"] at small-quay is not as entry',
  ],
  [
    'an issued report that is gone',
    'DELETE FROM report',
    'Step 1 of report ["monthly","1"] at small-quay is gone',
  ],
  [
    'how many of its readings nobody stands for',
    `UPDATE frozen_set SET body = replace(body, '"provisional":0', '"provisional":7')`,
    'Step 1 of frozen set aaaaaaaaaaaaaaaa at small-quay is not as entry',
  ],
  [
    'up to where it was frozen, so that nothing would have come since',
    `UPDATE frozen_set SET mark = replace(mark, '"auditNumber":', '"auditNumber":9')`,
    'Step 1 of frozen set aaaaaaaaaaaaaaaa at small-quay is not as entry',
  ],
  [
    'what a report said',
    `UPDATE report SET body = replace(body, 'Nothing moved', 'All moved')`,
    'Step 1 of report ["monthly","1"] at small-quay is not as entry',
  ],
  [
    'who issued a report',
    `UPDATE report SET author = 'C. Nobody'`,
    'Step 1 of report ["monthly","1"] at small-quay is not as entry',
  ],
  [
    'a report put in',
    `INSERT INTO report SELECT * REPLACE (2 AS id, 2 AS number) FROM report`,
    'Step 1 of report ["monthly","2"] at small-quay stands in the data file without an entry',
  ],
  [
    'what a report that was issued says of its file',
    `UPDATE report SET body = replace(body, 'aaaa', 'bbbb')`,
    'Step 1 of report ["monthly","1"] at small-quay is not as entry',
  ],
  [
    'an issued report that is gone',
    'DELETE FROM report',
    'Step 1 of report ["monthly","1"] at small-quay is gone',
  ],
])('%s is found though the chain fits', async (_what, sql, words) => {
  const found = await foundAfter(sql)
  expect(found.firstBreak).toBeNull()
  expect(found.count).toBe(1)
  expect(found.said).toContain(words)
})
