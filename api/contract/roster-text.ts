import { z } from 'zod'

/** The tables of a roster that are written as text in the page, as the path names them. */
export const rosterTables = ['contacts', 'duty-shifts', 'holidays', 'escalations'] as const
export type RosterTable = (typeof rosterTables)[number]

/** `GET /api/sites/:site/roster/:table`: the table as the file of a site folder, headings first. */
export interface RosterText {
  readonly file: string
  readonly text: string
  /** Changes whenever the text does; a change names the one that it is based on. */
  readonly hash: string
}

const text = z.string().max(200_000, 'at most 200,000 characters')

/** `POST /api/sites/:site/roster/:table/preview`: answered with a `RosterPreview`; nothing is changed. */
export const rosterDraftSchema = z.strictObject({ text })

/** What a changed table would mean for who is told first. */
export interface RosterPreview {
  readonly rowsBefore: number
  readonly rowsAfter: number
  readonly untilEpochMs: number
  readonly duties: readonly {
    readonly duty: string
    /** Sentences, site time. */
    readonly holesBefore: readonly string[]
    readonly holesAfter: readonly string[]
  }[]
}

/** `PUT /api/sites/:site/roster/:table`: replaces the table; answered with its `RosterText`. */
export const rosterChangeSchema = z.strictObject({
  text,
  basedOn: z.string().max(100),
  /** The holes that the preview told are known, and the roster is wanted all the same. */
  holesKnown: z.boolean(),
  reason: z.string().max(1000, 'at most 1000 characters'),
  author: z.string().max(200, 'at most 200 characters'),
})
