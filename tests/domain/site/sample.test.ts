import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readSite, siteFiles } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'

const folder = new URL('../../../sample-site/', import.meta.url)
const files = new Map(
  readdirSync(folder)
    .filter((file) => siteFiles.includes(file))
    .map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]),
)

test('the sample site has no fault', () => {
  const outcome = readSite(files)
  expect(outcome.ok ? [] : outcome.issues).toEqual([])
})

test('the sample site written out and read again is the same site', () => {
  const outcome = readSite(files)
  if (!outcome.ok) throw new Error('the sample site has faults')
  expect(readSite(writeSite(outcome.value))).toEqual(outcome)
})
