import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import {
  largestReportBytes,
  type ReportFileName,
  type ReportIssue,
  type ReportList,
  reportFiles,
  reportIssueSchema,
} from '#contract/reports.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { manifestFaults } from '#domain/report/manifest-faults.ts'
import type { IssuedReport } from '#domain/report/report.ts'
import { reportsDue } from '#domain/report/report-period.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { keepFile, keptPath } from '../intake/keep-file.ts'
import { ReportNumberTaken } from '../store/issued-reports.ts'
import { problem } from './problem.ts'
import { brokenCharacter, hasWholeCharacters } from './read-body.ts'
import { signerAccount, signerName } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/reports'
const names = Object.keys(reportFiles) as ReportFileName[]

/** Nothing in a report may run, load or lead anywhere, whatever stands in it. */
const nothingRuns =
  "sandbox; default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; form-action 'none'; frame-ancestors 'none'; base-uri 'none'"

/** Reports that were given out: kept byte for byte under their hashes, numbered, and never changed. */
export function reportRoutes(
  dependencies: Pick<Dependencies, 'store' | 'intake' | 'now' | 'software'> & {
    readonly frozenSetOf?: FrozenSetOf
  },
): Hono {
  const { store, intake, now, software = '', frozenSetOf = async () => null } = dependencies
  const routes = new Hono()
  for (const guarded of [path, `${path}/*`]) routes.use(guarded, siteMustExist(dependencies))

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const { facts } = (await store.getSite(site)) as SiteModel
    const asOfEpochMs = facts.presentEpochMs ?? now()
    const reports = await store.listReports(site)
    const list: ReportList = {
      reports: reports.toReversed(),
      due: reportsDue(
        reports.map(({ manifest }) => manifest),
        asOfEpochMs,
        facts.timeZone,
      ),
      asOfEpochMs,
      software,
    }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  const bounded = bodyLimit({ maxSize: largestReportBytes, onError: tooLarge })
  routes.post(path, bounded, async (context) => {
    const site = context.req.param('site')
    const read = await readIssue(context)
    if (!read.ok) return refuse(context, read.issues)
    const { manifest, files } = read.value
    const { facts } = (await store.getSite(site)) as SiteModel
    const author = signerName(context, manifest.statement.author).trim()
    const last = (await store.listReports(site)).findLast((one) => one.manifest.kind === manifest.kind)
    const frozen = await frozenSetOf(site, manifest.frozenSet)
    const faults = [
      ...manifestFaults(manifest, { site, timeZone: facts.timeZone, frozen, last: last ?? null }),
      ...otherAuthor(author, manifest.statement.author),
      ...reservedAuthor(author),
    ]
    if (faults.length > 0) return refuse(context, faults)
    for (const { bytes } of files) await keepFile(intake.filesFolder, chunkOf(bytes), largestReportBytes)
    try {
      const issued = await store.addReport(
        site,
        { manifest, files: files.map(({ bytes, ...file }) => ({ ...file, bytes: bytes.length })) },
        { author, account: signerAccount(context), reason: manifest.statement.text, atEpochMs: now() },
      )
      return context.json(issued, 201)
    } catch (failure) {
      if (!(failure instanceof ReportNumberTaken)) throw failure
      return problem(
        context,
        409,
        'Another report was issued meanwhile',
        `Number ${manifest.number} is not the next of its kind; ${failure.next} is. Nothing was issued: look at what was, and make the report anew, since what changed is counted from it.`,
      )
    }
  })

  routes.get(`${path}/:report/:file`, async (context) => {
    const { site, report, file } = context.req.param()
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
      'cache-control': 'private, max-age=31536000, immutable',
    }
    if (context.req.header('if-none-match') === headers.etag) return context.body(null, 304, headers)
    const bytes = await readFile(keptPath(intake.filesFolder, held.sha256)).catch(absent)
    if (bytes === null || sha256Of(bytes) !== held.sha256) return damaged(context, kind, number, held)
    return context.body(Uint8Array.from(bytes), 200, headers)
  })
  return routes
}

/** A frozen data set of a site; null: there is none of that name. */
type FrozenSetOf = (site: string, id: string) => Promise<{ readonly cutOffEpochMs: number } | null>

interface ReceivedFile {
  readonly name: ReportFileName
  readonly sha256: string
  readonly bytes: Uint8Array
}

/** The form that a page sends, with the hashes that the bytes really have. */
async function readIssue(
  context: Context,
): Promise<Outcome<{ readonly manifest: ReportIssue['manifest']; readonly files: readonly ReceivedFile[] }>> {
  const form = await context.req.formData().catch(() => null)
  const issue = form?.get('issue')
  const parsed = reportIssueSchema.safeParse(typeof issue === 'string' ? jsonOf(issue) : null)
  if (!form || !parsed.success)
    return reject(
      ...(parsed.error?.issues ?? []).map(({ path: at, message }) => ({
        code: 'body-unreadable',
        column: at.join('.'),
        message: `${at.join('.') || 'The form, in its field issue'}: ${message}.`,
      })),
    )
  if (!hasWholeCharacters(parsed.data)) return reject(brokenCharacter)
  const files: ReceivedFile[] = []
  const issues: Issue[] = []
  for (const name of names) {
    const sent = form.get(name)
    const bytes =
      sent instanceof Blob ? new Uint8Array(await sent.arrayBuffer()) : new TextEncoder().encode(sent ?? '')
    const sha256 = sha256Of(bytes)
    if (bytes.length === 0)
      issues.push({ code: 'file-missing', column: name, message: `${name} is empty or missing.` })
    else if (sha256 !== parsed.data.sha256[name])
      issues.push({
        code: 'other-bytes',
        column: name,
        value: sha256,
        expected: parsed.data.sha256[name],
        message: `${name} arrived with SHA-256 ${sha256}, not ${parsed.data.sha256[name]}: it was changed or broken off on the way. Send it again.`,
      })
    else files.push({ name, sha256, bytes })
  }
  return issues.length > 0 ? reject(...issues) : accept({ manifest: parsed.data.manifest, files })
}

/** The statement in the files is under the name that was typed; an account may not issue it in another's. */
const otherAuthor = (author: string, typed: string): readonly Issue[] =>
  author === typed.trim()
    ? []
    : [
        {
          code: 'other-author',
          column: 'author',
          value: typed,
          expected: author,
          message: `The statement is under the name ${typed}, and ${author} is signed in. Make the report under your own name.`,
        },
      ]

const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')

function absent(cause: NodeJS.ErrnoException): null {
  if (cause.code === 'ENOENT' || cause.code === 'ENOTDIR') return null
  throw cause
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

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

async function* chunkOf(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes
}

const tooLarge = (context: Context): Response =>
  problem(
    context,
    413,
    'Report too large',
    `At most ${largestReportBytes / 1024 ** 2} MiB are taken as one report. Nothing was issued: leave out parts or views.`,
  )

const refuse = (context: Context, issues: readonly Issue[]): Response =>
  problem(
    context,
    400,
    'Report not understood',
    'Nothing was issued; what is wrong with it stands in issues.',
    issues,
  )
