/**
 * The automatic checks of a reading, in the order of their bits. Checks mark, they decide nothing: a marked reading is
 * kept, published and held against levels like any other.
 */
export const readingChecks = [
  'range',
  'rate-of-change',
  'spike',
  'stuck-value',
  'gap',
  'clock',
  'duplicate',
  'temperature',
] as const
export type ReadingCheck = (typeof readingChecks)[number]

/** Flags as QARTOD numbers them (IOOS, Manual for Real-Time Oceanographic Data Quality Control Flags, 2020). */
export const qartodFlags = { pass: 1, notEvaluated: 2, suspect: 3, fail: 4, missing: 9 } as const
export type QartodFlag = (typeof qartodFlags)[keyof typeof qartodFlags]

/** Two bits a check: suspect at 2n, fail at 2n + 1. 0: nothing was noticed. A bucket holds those of all its readings. */
export const suspectBit = (check: ReadingCheck): number => 1 << (2 * readingChecks.indexOf(check))
export const failBit = (check: ReadingCheck): number => 2 * suspectBit(check)

/** What is marked about a reading, or about any of a bucket, worst first as QARTOD asks; `fail` hides `suspect`. */
export function marksOf(bits: number): readonly { readonly check: ReadingCheck; readonly fails: boolean }[] {
  return readingChecks
    .flatMap((check) =>
      bits & failBit(check)
        ? [{ check, fails: true }]
        : bits & suspectBit(check)
          ? [{ check, fails: false }]
          : [],
    )
    .toSorted((one, other) => Number(other.fails) - Number(one.fails))
}

const checkNames: Readonly<Record<ReadingCheck, string>> = {
  range: 'range',
  'rate-of-change': 'rate of change',
  spike: 'spike',
  'stuck-value': 'stuck value',
  gap: 'gap before it',
  clock: 'clock',
  duplicate: 'duplicate disagrees',
  temperature: 'temperature not plausible',
}

/** A mark in a few words: `suspect: spike`, `fails: range`. */
export const markNote = ({ check, fails }: { readonly check: ReadingCheck; readonly fails: boolean }) =>
  `${fails ? 'fails' : 'suspect'}: ${checkNames[check]}`
