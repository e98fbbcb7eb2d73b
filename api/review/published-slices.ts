import { DuckDBInstance } from '@duckdb/node-api'
import type { ReviewQuestion } from '#contract/review-questions.ts'
import { rawColumns } from '#contract/slice-columns.ts'
import { writeLiterals } from '#contract/write-literals.ts'
import { assert } from '#domain/assert.ts'
import type { ReadColumns } from '#domain/review/case/reviewed-site.ts'

/** Raw slices as published, to be asked what a page asks of them. */
export interface PublishedSlices {
  ask(question: ReviewQuestion): Promise<ReadColumns>
  close(): void
}

/** Opens slice files beside the store, on one thread and with little memory: readings are taken in by the same machine. */
export async function openPublishedSlices(files: readonly string[]): Promise<PublishedSlices> {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1', memory_limit: '256MB' })
  const connection = await instance.connect()
  const close = () => {
    connection.closeSync()
    instance.closeSync()
  }
  try {
    const parts: string[] = []
    const names = Object.keys(rawColumns).map((name) => `"${name}"`)
    for (const [at, file] of files.entries()) {
      await connection.run(`attach '${file.replaceAll("'", "''")}' as slice_${at} (read_only)`)
      parts.push(`select ${names.join(', ')} from slice_${at}.value`)
    }
    const none = Object.entries(rawColumns).map(([name, type]) => `null::${type} as "${name}"`)
    if (parts.length === 0) parts.push(`select ${none.join(', ')} where false`)
    await connection.run(`create view raw_values as ${parts.join(' union all ')}`)
  } catch (cause) {
    close()
    throw cause
  }
  return {
    async ask({ sql, params }) {
      const reader = await connection.runAndReadAll(writeLiterals(sql, params))
      const columns = reader.getColumns()
      const found = new Map(
        reader
          .columnNames()
          .map((name, place) => [
            name,
            Float64Array.from(columns[place] ?? [], (cell) => (cell === null ? Number.NaN : Number(cell))),
          ]),
      )
      return {
        rows: reader.currentRowCount,
        number(name) {
          const column = found.get(name)
          assert(column !== undefined, `no column ${name} among ${[...found.keys()].join(', ')}`)
          return column
        },
      }
    },
    close,
  }
}
