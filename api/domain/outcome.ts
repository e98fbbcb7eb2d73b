/** One fault in what a person or a file gave us: what, where, the offending value and what was expected. */
export interface Issue {
  /** Stable kebab-case code, e.g. `number-expected`. */
  readonly code: string
  /** A whole sentence: what was wrong and what to do. */
  readonly message: string
  readonly file?: string
  /** 1-based line in the file, counting the header. */
  readonly line?: number
  /** Column heading, or 1-based column number where there is no heading. */
  readonly column?: string | number
  readonly value?: string
  readonly expected?: string
}

/** Bad input is a value: either the thing, or every reason why not. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] }

export const accept = <T>(value: T): Outcome<T> => ({ ok: true, value })

export const reject = (...issues: readonly Issue[]): Outcome<never> => ({ ok: false, issues })

/** An issue as one line of a report: where it is, then what is wrong and what to do. */
export function issueLine({ file, line, column, message }: Issue): string {
  const where = [
    file,
    line === undefined ? undefined : `line ${line}`,
    column === undefined ? undefined : `column ${column}`,
  ].filter((part) => part !== undefined)
  return where.length > 0 ? `${where.join(', ')}: ${message}` : message
}
