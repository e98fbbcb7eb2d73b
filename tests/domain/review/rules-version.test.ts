import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { weighCase } from '#domain/review/rank-causes.ts'
import { reviewRules } from '#domain/review/review-rules.ts'
import { rulesVersion } from '#domain/review/rules-version.ts'
import { madeCases } from './made-cases.ts'
import { madeReadings } from './made-single-readings.ts'

/** What the rules found under each name; only the newest is reckoned here. */
const found: Readonly<Record<string, string>> = { '2026-11-26': 'cc13dd5026bf8fe5' }

test('rules and weights that find something else go by another name', () => {
  const hash = createHash('sha256').update(JSON.stringify(reviewRules.map(({ id }) => id)))
  for (const { reviewed, oddity } of madeCases(1, 1))
    hash.update(
      JSON.stringify(
        weighCase(reviewed, oddity).ranked.map(({ cause, decibans }) => [cause, decibans.toFixed(3)]),
      ),
    )
  for (const { reviewed } of madeReadings(20_001, 1))
    hash.update(
      JSON.stringify(
        weighCase(reviewed, 'reading').ranked.map(({ cause, decibans }) => [cause, decibans.toFixed(3)]),
      ),
    )
  const now = hash.digest('hex').slice(0, 16)
  expect(
    found[rulesVersion],
    `These rules find what they did not under ${rulesVersion}. Give api/domain/review/rules-version.ts another name and note ${now} under it here: verdicts keep that name with their evidence.`,
  ).toBe(now)
})
