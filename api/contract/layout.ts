import { z } from 'zod'

/**
 * How a logger file is laid out, declared once and versioned. A wide file has a column a channel;
 * a long file has a row a reading. Columns are named as in the names row, or by 1-based number.
 */
const column = z.union([z.string().min(1), z.int().min(1)])

export const layoutSchema = z
  .strictObject({
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,62}$/),
    version: z.int().min(1),
    title: z.string().min(1),
    encoding: z.enum(['utf-8', 'utf-16le', 'windows-1252']),
    delimiter: z.enum([',', ';', '\t', '|', ' ']),
    decimalMark: z.enum(['.', ',']),
    /** Lines before the first row of readings, names row included. */
    headerRows: z.int().min(0).max(50),
    /** 1-based line that holds the column names; null when there is none. */
    namesRow: z.int().min(1).nullable(),
    time: z.strictObject({
      /** One column, or a date column and a time column. */
      columns: z.array(column).min(1).max(2),
      /** Pattern of yyyy MM dd HH mm ss SSS and literal characters, or `iso` (RFC 3339), `epoch-s`, `epoch-ms`, `serial`. */
      pattern: z.string().min(1),
      /** `UTC`, a fixed offset such as `-01:00`, or an IANA zone. Ignored where the text carries its own. */
      zone: z.string().min(1),
    }),
    /**
     * When the gateway or server received the row, where the file says so; the trail, lateness and clock
     * drift rest on it. Null: the instant the file itself arrived.
     */
    received: z.strictObject({ column, pattern: z.string().min(1), zone: z.string().min(1) }).nullable(),
    /** Cells that mean "no reading": recorded as absent, not as faults. */
    absent: z.array(z.string()),
    /** Numbers by which a logger says that it could not measure; quarantined with that reason. */
    faultCodes: z.array(z.number()),
    channels: z.discriminatedUnion('shape', [
      z.strictObject({
        shape: z.literal('wide'),
        /** Logger for every column that names none. Null: the name pattern must name it. */
        logger: z.string().nullable(),
        /**
         * Regular expression over the column name with named groups `channel` and, unless `logger` is
         * given, `logger`. Columns that do not match are listed in `ignored` or make the file doubtful.
         */
        namePattern: z.string().min(1),
        ignored: z.array(column),
      }),
      z.strictObject({
        shape: z.literal('long'),
        /** Column that names the logger, or null with `loggerName` for all rows. */
        loggerColumn: column.nullable(),
        loggerName: z.string().nullable(),
        channelColumn: column,
        valueColumn: column,
      }),
    ]),
    /**
     * Only of a long file: it is a level book. Its rows are setups, `channelColumn` names the point ahead, `valueColumn`
     * is the foresight; its readings are the adjusted levels of those points, m.
     */
    levelBook: z
      .strictObject({
        /** Name of the line that a setup belongs to, and its number in it, 1, 2, 3 … */
        lineColumn: column,
        setupColumn: column,
        behindColumn: column,
        backsightColumn: column,
        /** Length of the sights back and ahead together, m. */
        distanceColumn: column,
        /** Levels that lines begin and end at, m. */
        benchmarks: z.array(z.strictObject({ name: z.string().min(1), levelMetres: z.number() })).min(1),
        /** Closure allowed, mm, for a line of 1 km; it grows with the root of the length. */
        closureMmPerRootKm: z.number().positive(),
        /** How a misclosure within that is shared out. */
        share: z.enum(['setups', 'distance']),
        /** Regular expression over points that only carry the line on; null when there are none. */
        turningPoints: z.string().nullable(),
      })
      .optional(),
    /** Regular expression over file names that this layout is for; null when only chosen by content or by hand. */
    fileNamePattern: z.string().nullable(),
  })
  .refine(
    ({ levelBook, channels }) => !levelBook || (channels.shape === 'long' && channels.loggerColumn === null),
    {
      path: ['levelBook'],
      message: 'A level book has a row a setup, and one crew (logger) for all rows.',
    },
  )
  .refine(({ levelBook }) => !levelBook || hasEachOnce(levelBook.benchmarks), {
    path: ['levelBook', 'benchmarks'],
    message: 'A benchmark stands here twice. Give it one level.',
  })

/** A declared file layout. `logger` in files may be a logger's id or its serial. */
export type Layout = z.infer<typeof layoutSchema>

function hasEachOnce(benchmarks: readonly { readonly name: string }[]): boolean {
  return new Set(benchmarks.map(({ name }) => name)).size === benchmarks.length
}
