import type { StoredFieldEntry } from '#contract/field-entry.ts'
import { type MatchedCoverage, matchCoverage } from '#domain/field/match-coverage.ts'
import { groupBy } from '#domain/group-by.ts'
import type { Outcome } from '#domain/outcome.ts'
import { judgeCoverageTest } from '#domain/radio/acceptance.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { CoverageTestRow } from '#domain/site/tables.ts'
import {
  type EntryOf,
  effectOf,
  type FieldSite,
  type FieldTools,
  type NumberedEffect,
  ofKind,
} from './field-site.ts'

type Test = EntryOf<'coverage-test'>
type Record = EntryOf<'receiver-record'>

/** Everything written about one test number. */
interface Written {
  readonly test: string
  readonly tests: readonly Test[]
  readonly records: readonly Record[]
  /** Null: none stands, or several do. */
  readonly standing: Test | null
  readonly record: Record | null
  readonly testDisputed: boolean
  readonly recordDisputed: boolean
}

/**
 * Rows of coverage tests are what stands on each test number, matched with the receiver's record whichever came first:
 * a correction takes the place of what it corrects, and while entries stand side by side none has rows.
 */
export async function keepCoverage(
  { store, now, touch }: FieldTools,
  field: FieldSite,
): Promise<readonly NumberedEffect[]> {
  const judged = writtenByTest(field).map((written) => judgeTest(field.model, written))
  const wanted = judged.flatMap(({ wanted }) => (wanted === null ? [] : [wanted]))
  // One change an author: each is signed by whoever wrote it, and a round has many tests.
  for (const [author, own] of groupBy(wanted, (one) => one.author)) {
    const replace = (before: SiteModel['coverageTests']) =>
      own.reduce((tests, { test, rows }) => replaceTest(tests, test, rows), before)
    if (replace(field.model.coverageTests) === field.model.coverageTests) continue
    const { changed } = await store.changeSite(
      field.model.facts.id,
      (latest) => ({ ...latest, coverageTests: replace(latest.coverageTests) }),
      { author, reason: 'Written along the works', atEpochMs: now() },
    )
    if (changed > 0) touch()
  }
  return judged.flatMap(({ effects }) => effects)
}

function writtenByTest({ entries, standings, byId }: FieldSite): readonly Written[] {
  const tests = groupBy(ofKind(entries, 'coverage-test'), ({ entry }) => entry.body.test)
  const records = groupBy(ofKind(entries, 'receiver-record'), ({ entry }) => entry.body.test)
  const standingOf = (subject: string): { one: StoredFieldEntry | null; disputed: boolean } => {
    const standing = standings.get(subject)
    const [first] = standing?.entries ?? []
    const disputed = standing?.disputed ?? false
    return { one: disputed || first === undefined ? null : (byId.get(first.id) ?? null), disputed }
  }
  return [...new Set([...tests.keys(), ...records.keys()])].map((test) => {
    const standing = standingOf(`coverage-test:${test}`)
    const record = standingOf(`receiver-record:${test}`)
    return {
      test,
      tests: tests.get(test) ?? [],
      records: records.get(test) ?? [],
      standing: ofKind(standing.one ? [standing.one] : [], 'coverage-test')[0] ?? null,
      record: ofKind(record.one ? [record.one] : [], 'receiver-record')[0] ?? null,
      testDisputed: standing.disputed,
      recordDisputed: record.disputed,
    }
  })
}

interface JudgedTest {
  /** Rows that the register is to have of the test; null: it is not for us to say. */
  readonly wanted: {
    readonly test: string
    readonly rows: readonly CoverageTestRow[]
    readonly author: string
  } | null
  readonly effects: readonly NumberedEffect[]
}

function judgeTest(model: SiteModel, written: Written): JudgedTest {
  const { test, tests, records, standing, record } = written
  const matched = standing && match(standing, record, model)
  const rows = matched?.ok ? matched.value.rows : []
  const own = new Set(
    tests.flatMap((one) =>
      [null, ...records].flatMap((other) => {
        const made = match(one, other, model)
        return made.ok ? made.value.rows.map(textOf) : []
      }),
    ),
  )
  const isOurs = (row: CoverageTestRow) => row.test !== test || own.has(textOf(row))
  if (!model.coverageTests.every(isOurs))
    return {
      wanted: null,
      effects: [...tests, ...records].map(({ number }) => ({
        number,
        effect: effectOf('refused', [
          `Test ${test} is in the register already, and not from what was written along the works. Write the test anew under a number of its own.`,
        ]),
      })),
    }
  const author = (standing ?? tests[0] ?? records[0])?.entry.author.trim() ?? ''
  return {
    wanted: { test, rows, author },
    effects: [
      ...tests.map(({ number, entry }) => ({
        number,
        effect:
          entry.id === standing?.entry.id && matched !== null
            ? effectOfTest(matched, record !== null)
            : effectOf('kept', [notStanding(written.testDisputed, `test ${test}`)]),
      })),
      ...records.map(({ number, entry }) => ({
        number,
        effect:
          entry.id === record?.entry.id
            ? effectOfRecord(written, matched)
            : effectOf('kept', [
                notStanding(written.recordDisputed, `the receiver's record of test ${test}`),
              ]),
      })),
    ],
  }
}

const match = ({ entry }: Test, record: Record | null, { loggers }: SiteModel) =>
  matchCoverage(entry.body, entry.author, record?.entry.body ?? null, loggers)

const notStanding = (disputed: boolean, what: string): string =>
  disputed
    ? `Entries on ${what} stand side by side. None takes effect until one is chosen.`
    : `Another entry on ${what} stands in its place.`

function effectOfTest(matched: Outcome<MatchedCoverage>, recorded: boolean) {
  if (!matched.ok)
    return effectOf(
      'refused',
      matched.issues.map(({ message }) => message),
    )
  const { rows, waiting, remarks } = matched.value
  if (waiting.length > 0)
    return effectOf('kept', [
      `Packets received are not known at spreading factor ${waiting.join(', ')}${recorded ? '' : ": the test waits for the receiver's record"}.`,
      ...remarks,
    ])
  const { verdict } = judgeCoverageTest(rows)
  return effectOf('taken', [
    `In the register of coverage tests, ${rows.length === 1 ? 'one spreading factor' : `${rows.length} spreading factors`}.`,
    verdict === 'accepted'
      ? 'At least half of the packets arrived in one of them.'
      : verdict === 'not-accepted'
        ? 'In none of them did half of the packets arrive.'
        : 'No packets were sent.',
    ...remarks,
  ])
}

function effectOfRecord({ test, standing, testDisputed }: Written, matched: Outcome<MatchedCoverage> | null) {
  if (standing === null || matched === null)
    return effectOf('kept', [
      testDisputed
        ? `Entries on test ${test} stand side by side; the record is matched once one is chosen.`
        : `Test ${test} has not arrived yet; the record is matched when it does.`,
    ])
  if (!matched.ok) return effectOf('kept', [`Test ${test} cannot be taken yet; its entry says why.`])
  const { waiting, remarks } = matched.value
  return waiting.length > 0
    ? effectOf('kept', [`Matched with test ${test}, which is not complete with it.`, ...remarks])
    : effectOf('taken', [`Matched with test ${test}.`, ...remarks])
}

function replaceTest(
  before: readonly CoverageTestRow[],
  test: string,
  rows: readonly CoverageTestRow[],
): readonly CoverageTestRow[] {
  const held = before.filter((row) => row.test === test).map(textOf)
  const wanted = new Set(rows.map(textOf))
  if (held.length === wanted.size && held.every((text) => wanted.has(text))) return before
  return [...before.filter((row) => row.test !== test), ...rows]
}

const textOf = (row: object): string =>
  JSON.stringify(Object.entries(row).sort(([one], [other]) => (one < other ? -1 : 1)))
