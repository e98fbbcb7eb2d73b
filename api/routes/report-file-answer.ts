import type { Context } from 'hono'
import { reportFiles } from '#contract/reports.ts'
import type { IssuedReport } from '#domain/report/report.ts'
import type { Store } from '../store/store.ts'
import { problem } from './problem.ts'
import type { ReportFiles } from './report-files.ts'

/** Nothing in a report may run, load or lead anywhere, whatever stands in it. */
const nothingRuns =
  "sandbox; default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; form-action 'none'; frame-ancestors 'none'; base-uri 'none'"

/** A file of a report that was issued, if it still is what was issued. */
export async function reportFileAnswer(
  context: Context,
  store: Pick<Store, 'listReports'>,
  kept: ReportFiles,
): Promise<Response> {
  const { site, report, file } = context.req.param() as Record<'site' | 'report' | 'file', string>
  const issued = (await store.listReports(site)).find(({ id }) => String(id) === report)
  const held = issued?.files.find(({ name }) => name === file)
  if (!issued || !held)
    return problem(
      context,
      404,
      'No such report',
      `There is no file ${file} of a report ${report} at this site; the list of reports has those there are.`,
    )
  const { kind, number } = issued.manifest
  const headers = {
    'content-type': reportFiles[held.name],
    'content-disposition': `attachment; filename="${site}-${kind}-${number}.${held.name.split('.').at(-1)}"`,
    'content-length': String(held.bytes),
    'content-security-policy': nothingRuns,
    'x-content-type-options': 'nosniff',
    etag: `"${held.sha256}"`,
    // It never changes; the right to read it may end.
    'cache-control': 'private, no-cache',
  }
  if (context.req.header('if-none-match') === headers.etag) return context.body(null, 304, headers)
  const bytes = await kept.read(held)
  if (bytes === null) return damaged(context, kind, number, held)
  return context.body(Uint8Array.from(bytes), 200, headers)
}

/** What was given out is known by its hash; another content must not go out under its name. */
const damaged = (
  context: Context,
  kind: string,
  number: number,
  { name, sha256 }: IssuedReport['files'][number],
): Response =>
  problem(
    context,
    500,
    'Report damaged',
    `The file ${name} of ${kind} report ${number} is missing on the server or is not what was issued, and is not given out. Put the file with SHA-256 ${sha256} back from a backup.`,
    [{ code: 'report-damaged', value: name, expected: sha256, message: `${name} is not what was issued.` }],
  )
