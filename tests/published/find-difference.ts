import type { PublishedRow, PublishedTable } from './published-row.ts'

/** What is wrong with a row, in words; null when the project gives what the row expects. */
export function findDifference({ computed }: PublishedTable, row: PublishedRow): string | null {
  const compute = computed[row.id]
  if (compute === undefined) return 'nothing computes it'
  try {
    return differenceOf(compute(row.inputs), row.expected, row.tolerance, row.id)
  } catch (error) {
    return `computing it failed: ${error instanceof Error ? error.message : error}`
  }
}

function differenceOf(actual: unknown, expected: unknown, tolerance: unknown, at: string): string | null {
  if (Array.isArray(expected)) {
    if (!Array.isArray(actual) || actual.length !== expected.length)
      return `${at}: ${JSON.stringify(actual)} is not a list of ${expected.length}`
    const own = (place: number) => (Array.isArray(tolerance) ? tolerance[place] : tolerance)
    return first(
      expected.map((one, place) => differenceOf(actual[place], one, own(place), `${at}[${place}]`)),
    )
  }
  if (typeof expected === 'object' && expected !== null) {
    const given = actual as Record<string, unknown> | null
    if (typeof given !== 'object' || given === null) return `${at}: ${JSON.stringify(actual)} is no mapping`
    const own = (name: string) => (isByName(tolerance) ? tolerance[name] : tolerance)
    return first(
      Object.entries(expected).map(([name, one]) =>
        differenceOf(given[name], one, own(name), `${at}.${name}`),
      ),
    )
  }
  if (typeof expected !== 'number')
    return Object.is(actual, expected)
      ? null
      : `${at}: ${JSON.stringify(actual)} for ${JSON.stringify(expected)}`
  if (typeof actual !== 'number') return `${at}: ${JSON.stringify(actual)} for ${expected}`
  return Math.abs(actual - expected) <= allowed(expected, tolerance)
    ? null
    : `${at}: ${actual} for ${expected}`
}

const first = (differences: readonly (string | null)[]): string | null =>
  differences.find((one) => one !== null) ?? null

const isByName = (tolerance: unknown): tolerance is Record<string, unknown> =>
  typeof tolerance === 'object' && tolerance !== null && !('abs' in tolerance) && !('rel' in tolerance)

/** The last place of a double is allowed beside the stated tolerance, so that a tolerance of 0 means the same number. */
function allowed(expected: number, tolerance: unknown): number {
  const lastPlace = Math.abs(expected) * 1e-15
  if (typeof tolerance === 'number') return tolerance + lastPlace
  const { abs = 0, rel = 0 } = (tolerance ?? {}) as { abs?: number; rel?: number }
  return abs + rel * Math.abs(expected) + lastPlace
}
