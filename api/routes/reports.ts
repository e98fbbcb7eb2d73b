import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { largestReportBytes, type ReportList } from '#contract/reports.ts'
import type { Issue } from '#domain/outcome.ts'
import { manifestFaults } from '#domain/report/manifest-faults.ts'
import { reportsDue } from '#domain/report/report-period.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import { keepFile } from '../intake/keep-file.ts'
import { ReportNumberTaken } from '../store/issued-reports.ts'
import { lostReports } from './lost-reports.ts'
import { problem } from './problem.ts'
import { reportFileAnswer } from './report-file-answer.ts'
import { createReportFiles } from './report-files.ts'
import { readIssue } from './report-form.ts'
import { signerAccount, signerName } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/reports'

/** Reports that were given out: kept byte for byte under their hashes, numbered, and never changed. */
export function reportRoutes(
  dependencies: Pick<Dependencies, 'store' | 'intake' | 'now' | 'software'> & {
    readonly frozenSetOf?: FrozenSetOf
    /** Why a frozen set cannot be read, as a sentence; null: nothing is known against it. */
    readonly damageOf?: (site: string, id: string) => Promise<string | null>
  },
): Hono {
  const { store, intake, now, software = '', frozenSetOf = async () => null } = dependencies
  const { damageOf = async () => null } = dependencies
  const kept = createReportFiles(intake.filesFolder)
  const routes = new Hono()
  for (const guarded of [path, `${path}/*`]) routes.use(guarded, siteMustExist(dependencies))

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const { facts } = (await store.getSite(site)) as SiteModel
    const asOfEpochMs = facts.presentEpochMs ?? now()
    const reports = await store.listReports(site)
    const list: ReportList = {
      reports: reports.toReversed(),
      lost: await lostReports(site, reports.toReversed(), { kept, damageOf }),
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

  routes.get(`${path}/:report/:file`, (context) => reportFileAnswer(context, store, kept))
  return routes
}

/** A frozen data set of a site; null: there is none of that name. */
type FrozenSetOf = (site: string, id: string) => Promise<{ readonly cutOffEpochMs: number } | null>

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
