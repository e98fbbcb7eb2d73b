import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import {
  type BoardsConflict,
  boardsDraftSchema,
  freezeMeetingSchema,
  type MeetingList,
  meetingDraftSchema,
} from '#contract/meetings.ts'
import { boardsChanged, nextBoards, nextMeeting } from '#domain/meeting/draft-meeting.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import { meetingsOfSite } from '#domain/meeting/meetings-of-site.ts'
import type { Issue } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Dependencies } from '../app.ts'
import type { Freezing } from '../freeze/freezing.ts'
import { FrozenPartDamaged } from '../freeze/frozen-parts.ts'
import { addSignedRows } from './add-signed-rows.ts'
import { noMeeting, numberInPath } from './meeting-of-path.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { signed, signer, signerAccount } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

const path = '/api/sites/:site/meetings'

/** Meetings over frozen data, and the versions of their boards. Rows are only added; a set once frozen stays a meeting's. */
export function meetingRoutes(
  dependencies: Pick<Dependencies, 'store' | 'publisher' | 'now'> & {
    /** Null: nothing is frozen on this server. */
    readonly freezing: Pick<Freezing, 'find' | 'freeze'> | null
  },
): Hono {
  const { store, publisher, now, freezing } = dependencies
  const routes = new Hono()
  const bounded = bodyLimit({
    maxSize: 512 * 1024,
    onError: (context) =>
      problem(context, 413, 'Too many boards', 'At most 512 KiB are taken here. Nothing was saved.'),
  })
  routes.use(path, siteMustExist(dependencies))
  routes.use(`${path}/*`, siteMustExist(dependencies))

  const findSet = async (site: string, id: string) => (freezing ? freezing.find(site, id) : null)
  /** One that is damaged stays the meeting's: whoever opens it is told, and the list is not held up by it. */
  const showsWhatItSays = ({ site, frozenSet, cutOffEpochMs }: Meeting & { readonly frozenSet: string }) =>
    findSet(site, frozenSet).then(
      (set) => set?.cutOffEpochMs === cutOffEpochMs,
      (failure) => {
        if (failure instanceof FrozenPartDamaged) return true
        throw failure
      },
    )
  /** A set that this server does not hold, or of another cut-off, such as one named in a folder, shows nothing. */
  const asHeldHere = async (meeting: Meeting): Promise<Meeting> => {
    const { frozenSet } = meeting
    const isHere = frozenSet !== null && (await showsWhatItSays({ ...meeting, frozenSet }))
    return isHere ? meeting : { ...meeting, frozenSet: null }
  }
  const listMeetings = async (site: string) =>
    Promise.all(meetingsOfSite((await store.getSite(site)) as SiteModel).map(asHeldHere))
  const findMeeting = async (site: string, id: number | null) =>
    (await listMeetings(site)).find((meeting) => meeting.id === id) ?? null

  /** The set that its record names, held here or not. */
  const namedSet = async (site: string, id: number) =>
    ((await store.getSite(site)) as SiteModel).meetings.find((row) => row.id === id)?.frozenSet ?? null

  routes.get(path, async (context) => {
    const list: MeetingList = { meetings: await listMeetings(context.req.param('site')) }
    context.header('cache-control', 'no-cache')
    return context.json(list)
  })

  routes.post(path, bounded, async (context) => {
    const site = context.req.param('site')
    const body = await readBody(context, meetingDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    const set = await findSet(site, body.value.frozenSet)
    if (set === null) return refuse(context, [noSet(body.value.frozenSet)])
    const made = await addSignedRows(context, dependencies, site, body.value, {
      judge: (model, draft, atEpochMs) => nextMeeting(model, draft, set.cutOffEpochMs, atEpochMs),
      rows: ({ meetings, boards }) => ({ meetings, boards }),
      reason: ({ title }) => title,
    })
    if (!made.ok) return refuse(context, made.issues)
    publisher.changed(site)
    return context.json(await findMeeting(site, made.value.id), 201)
  })

  routes.put(`${path}/:meeting/boards`, bounded, async (context) => {
    const site = context.req.param('site')
    const body = await readBody(context, boardsDraftSchema)
    if (!body.ok) return refuse(context, body.issues)
    const meeting = await findMeeting(site, numberInPath(context, 'meeting'))
    if (!meeting) return noMeeting(context)
    const made = await addSignedRows(context, dependencies, site, body.value, {
      judge: (model, draft, atEpochMs) => nextBoards(model, meeting, draft, atEpochMs),
      rows: (boards) => ({ boards }),
      reason: () => `boards of meeting ${meeting.id}`,
    })
    const latest = (await findMeeting(site, meeting.id)) as Meeting
    if (!made.ok) {
      const changed = made.issues.find(({ code }) => code === boardsChanged)
      if (!changed || made.issues.length > 1) return refuse(context, made.issues)
      const conflict: BoardsConflict = {
        type: '/problems/boards-changed-meanwhile',
        title: 'Boards changed meanwhile',
        status: 409,
        detail: changed.message,
        issues: [{ ...changed }],
        latest,
        sent: body.value.boards,
      }
      return context.body(JSON.stringify(conflict), 409, { 'content-type': 'application/problem+json' })
    }
    publisher.changed(site)
    return context.json(latest)
  })

  routes.post(`${path}/:meeting/freeze`, shortBody, async (context) => {
    const site = context.req.param('site')
    const body = await readBody(context, freezeMeetingSchema)
    if (!body.ok) return refuse(context, body.issues)
    const author = signed(context, body.value).author.trim()
    const faults = author === '' ? [noAuthor] : reservedAuthor(author)
    if (faults.length > 0) return refuse(context, faults)
    const meeting = await findMeeting(site, numberInPath(context, 'meeting'))
    if (!meeting) return noMeeting(context)
    if (meeting.frozenSet !== null) return context.json(meeting)
    const seen = await namedSet(site, meeting.id)
    if (!freezing)
      return problem(
        context,
        503,
        'Nothing is frozen here',
        'This server was started without a folder for frozen data.',
      )
    const frozen = await freezing.freeze(site, meeting.cutOffEpochMs, signer(context, author))
    if (!frozen.ok) return refuse(context, frozen.issues)
    await store.changeSite(
      site,
      (model) => ({
        ...model,
        // Where two wished it at once, what was kept first stays.
        meetings: model.meetings.map((row) =>
          row.id === meeting.id && (row.frozenSet ?? null) === seen
            ? { ...row, frozenSet: frozen.value.set.id }
            : row,
        ),
      }),
      {
        author,
        account: signerAccount(context),
        reason: `frozen for meeting ${meeting.id}`,
        atEpochMs: now(),
      },
    )
    publisher.changed(site)
    return context.json(await findMeeting(site, meeting.id))
  })
  return routes
}

const noAuthor: Issue = {
  code: 'author-missing',
  column: 'author',
  value: '',
  message: 'Nobody is named who freezes it. Write your name.',
}

const noSet = (set: string): Issue => ({
  code: 'frozen-set-unknown',
  column: 'frozenSet',
  value: set,
  message: `There is no frozen data set ${set} at this site. Freeze the data first, then make the meeting over what was frozen.`,
})

const refuse = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Meeting not understood',
    'Nothing was saved; what is wrong with it stands in issues.',
    issues,
  )
