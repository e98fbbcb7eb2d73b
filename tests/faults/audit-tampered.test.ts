import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { type AuditVerification, fitsWhole } from '#domain/audit/verification.ts'
import { auditHeadFile } from '../../api/store/audit-head.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { batchHead } from '../contract/reading-batches.ts'
import { smallSite } from '../contract/small-site.ts'
import { tamper } from '../support/tamper.ts'

/** Each test alters a copy of one data file by SQL, as someone who has the file would, and asks what is found. */
let folder: string
let whole: string
let file: string
let entries: number
let copies = 0

const signature = { author: 'A. Tester', reason: 'first load', atEpochMs: Date.UTC(2027, 9, 21) }

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'audit-tampered-'))
  whole = join(folder, 'whole.duckdb')
  const store = await openDuckdbStore({ file: whole })
  const model = smallSite()
  await store.putSite(model, signature)
  await store.putSite({ ...model, stages: model.stages.slice(0, 1) }, { ...signature, author: 'B. Other' })
  for (let i = 0; i < 4; i++) await store.refuseBatch(batchHead('small-quay', `file-${i}.csv`), 'Not text.')
  entries = (await store.verifyAudit()).entries
  await store.close()
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
beforeEach(() => {
  file = join(folder, `copy-${copies++}.duckdb`)
  copyFileSync(whole, file)
  copyFileSync(auditHeadFile(whole), auditHeadFile(file))
})

async function found(options: { readonly tells?: string[] } = {}): Promise<AuditVerification> {
  const store = await openDuckdbStore({ file, report: (line) => options.tells?.push(line) })
  const verification = await store.verifyAudit()
  await store.close()
  return verification
}

it('finds nothing where nothing was done', async () => {
  const verification = await found()
  expect(verification).toMatchObject({ entries, firstBreak: null, recordFaults: [], notices: [] })
  expect(verification.head.number).toBe(entries)
  expect(verification.recordsCompared).toBeGreaterThan(20)
  expect(fitsWhole(verification)).toBe(true)
})

describe('entries of the audit record', () => {
  it.each([
    ['what stood after', `"after" = replace("after", '-18', '-17') WHERE number = 6`],
    ['who did it', `name = 'C. Nobody' WHERE number = 6`],
    ['when', `"at" = "at" + INTERVAL 1 HOUR WHERE number = 6`],
    ['the reason', `why = '' WHERE number = 6`],
    ['the hash', `hash = repeat('0', 64) WHERE number = 6`],
    ['the site', `site = 'other-quay' WHERE number = 6`],
  ])('that are altered: %s', async (_, change) => {
    await tamper(file, `UPDATE audit SET ${change}`)
    expect((await found()).firstBreak).toMatchObject({ kind: 'altered', number: 6 })
  })

  it('that are taken out, with and without closing up the numbers', async () => {
    await tamper(file, 'DELETE FROM audit WHERE number IN (7, 8)')
    expect((await found()).firstBreak).toMatchObject({ kind: 'missing', number: 7 })
    await tamper(file, 'UPDATE audit SET number = number - 2 WHERE number > 8')
    expect((await found()).firstBreak).toMatchObject({ kind: 'missing', number: 7 })
  })

  it('that are put in, with and without making room for them', async () => {
    const forged = `SELECT * REPLACE ('D. Forger' AS name) FROM audit WHERE number = 7`
    await tamper(file, `INSERT INTO audit ${forged}`)
    expect((await found()).firstBreak).toMatchObject({ kind: 'inserted', number: 7 })
    copyFileSync(whole, file)
    await tamper(file, `UPDATE audit SET number = number + 1 WHERE number >= 7`)
    await tamper(file, `INSERT INTO audit SELECT * REPLACE (7 AS number) FROM audit WHERE number = 9`)
    expect((await found()).firstBreak).toMatchObject({ kind: 'inserted', number: 7 })
  })

  it('that are put at the end', async () => {
    await tamper(
      file,
      `INSERT INTO audit SELECT * REPLACE (number + 1 AS number) FROM audit WHERE number = ${entries}`,
    )
    expect((await found()).firstBreak).toMatchObject({ number: entries + 1 })
  })

  it('that change places', async () => {
    await tamper(
      file,
      `UPDATE audit SET number = CASE number WHEN 5 THEN 6 WHEN 6 THEN 5 END WHERE number IN (5, 6)`,
    )
    expect((await found()).firstBreak).toMatchObject({ kind: 'reordered', number: 5 })
  })

  it('that are cut off at the end, which is reported at the next start and stays on record', async () => {
    await tamper(file, `DELETE FROM audit WHERE number > ${entries - 2}`)
    const tells: string[] = []
    expect((await found({ tells })).firstBreak).toMatchObject({ kind: 'cut-off', number: entries - 1 })
    expect(tells.join()).toContain('its end was cut off, or an older data file was put back')
    // The next change notes another end outside; what was found is an entry by then.
    const store = await openDuckdbStore({ file, report: () => undefined })
    await store.refuseBatch(batchHead('small-quay'), 'Not text.')
    const verification = await store.verifyAudit()
    await store.close()
    expect(verification.firstBreak).toBeNull()
    expect(verification.notices.join()).toContain('its end was cut off')
    expect((await found()).notices.join()).toContain('its end was cut off')
  })

  it('that were all written anew, fitting to each other', async () => {
    rmSync(file)
    const head = readFileSync(auditHeadFile(file), 'utf8')
    rmSync(auditHeadFile(file))
    const store = await openDuckdbStore({ file })
    for (let i = 0; i < entries; i++) await store.refuseBatch(batchHead('small-quay'), 'Not text.')
    await store.close()
    writeFileSync(auditHeadFile(file), head)
    expect((await found({ tells: [] })).firstBreak).toMatchObject({ kind: 'rewritten', number: entries })
  })

  it('that are cut off together with the note of their end: that there was none stays on record', async () => {
    await tamper(file, `DELETE FROM audit WHERE number > ${entries - 2}`)
    rmSync(auditHeadFile(file))
    const tells: string[] = []
    const store = await openDuckdbStore({ file, report: (line) => tells.push(line) })
    await store.refuseBatch(batchHead('small-quay'), 'Not text.')
    await store.close()
    expect(tells.join()).toContain('not noted outside the data file any more')
    expect((await found()).notices.join()).toContain(`whether entries after ${entries - 2} were cut off`)
  })

  it('whose end was noted in a file that is damaged or gone', async () => {
    writeFileSync(auditHeadFile(file), 'nonsense')
    expect((await found({ tells: [] })).firstBreak?.sentence).toContain('written over or damaged')
    rmSync(auditHeadFile(file))
    const verification = await found()
    expect(verification.firstBreak).toBeNull()
    expect(verification.notices.join()).toContain('would not be noticed')
    expect(existsSync(auditHeadFile(file))).toBe(false)
  })
})

describe('records behind the back of the audit record', () => {
  const stage = `kind = 'stages' AND key = 'dig-1' AND version = 1`
  it.each([
    [
      'altered',
      `UPDATE record SET body = replace(body::VARCHAR, '-2', '-9')::JSON WHERE ${stage}`,
      'its content',
    ],
    [
      'signed by another',
      `UPDATE record SET author = 'C. Nobody' WHERE ${stage}`,
      'its author, reason or time',
    ],
    ['taken out', `DELETE FROM record WHERE ${stage}`, 'is gone'],
    ['withdrawn no more', `UPDATE record SET body = '{}' WHERE body IS NULL`, 'its content'],
    [
      'put in',
      `INSERT INTO record SELECT * REPLACE (3 AS version, '{}'::JSON AS body) FROM record WHERE ${stage}`,
      'without an entry',
    ],
    ['moved to another site', `UPDATE site SET slug = 'other-quay'`, 'is gone'],
  ])('%s', async (_, sql, words) => {
    await tamper(file, sql)
    const verification = await found()
    expect(verification.firstBreak).toBeNull()
    expect(verification.recordFaultCount).toBeGreaterThan(0)
    expect(verification.recordFaults.map(({ sentence }) => sentence).join(' ')).toContain(words)
    expect(fitsWhole(verification)).toBe(false)
  })

  it('long ones too, of which the entry has the hash', async () => {
    const store = await openDuckdbStore({ file })
    const model = smallSite()
    const name = 'x'.repeat(5000)
    await store.putSite({ ...model, facts: { ...model.facts, name } }, signature)
    await store.close()
    expect(fitsWhole(await found())).toBe(true)
    await tamper(
      file,
      `UPDATE record SET body = replace(body::VARCHAR, 'xxx', 'xxy')::JSON WHERE kind = 'facts' AND version = 2`,
    )
    expect((await found()).recordFaults[0]).toMatchObject({ kind: 'facts', version: 2 })
    // What the entry says in place of the text is no text that has this hash.
    await tamper(
      file,
      `UPDATE record SET body = (SELECT "after" FROM audit WHERE subject_kind = 'facts' AND version = 2)::JSON
       WHERE kind = 'facts' AND version = 2`,
    )
    expect((await found()).recordFaults[0]).toMatchObject({ kind: 'facts', version: 2 })
  })

  it('those from before the audit record began are held to one hash together', async () => {
    // As a data file of an earlier version: records, and no audit record yet.
    await tamper(file, 'DELETE FROM audit')
    rmSync(auditHeadFile(file))
    const store = await openDuckdbStore({ file })
    await store.refuseBatch(batchHead('small-quay'), 'Not text.')
    await store.close()
    const before = await found()
    expect(before).toMatchObject({ firstBreak: null, recordFaultCount: 0, entries: 2 })
    expect(before.recordsBefore).toBeGreaterThan(20)
    await tamper(file, `UPDATE record SET reason = 'otherwise' WHERE ${stage}`)
    expect((await found()).recordFaults[0]?.sentence).toContain('not as they were then')
  })
})
