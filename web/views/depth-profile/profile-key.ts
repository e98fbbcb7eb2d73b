import { formatAge, formatInstant, formatShortInstant } from '../../ui/format-instant.ts'
import { label, type Mark, path, textWidth } from '../marks/mark.ts'
import { dateMark } from './date-marks.ts'
import { type DepthProfileProps, isNotCurrent, type ProfileCurve } from './profile-props.ts'
import { stressSigns } from './stress-marks.ts'

interface Entry {
  /** Its sign with the left edge and the middle of its line given. */
  readonly sign: (left: number, middle: number) => readonly Mark[]
  readonly says: string
  /** Where there is no room for all of it in one line. */
  readonly short?: string
  readonly strong?: boolean
}

export interface ProfileKey {
  readonly marks: readonly Mark[]
  /** Room above the profile, or beside it; the other is 0. */
  readonly abovePixels: number
  readonly besidePixels: number
}

interface KeyRoom {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
}

const lineHeight = 1.35
/** A drawing broader than so many times its height has room to spare beside the profile and none above it. */
const broad = 1.8
/** Of the breadth, for the key beside the profile: as little as its lines find room in. */
const sharesBeside = [0.36, 0.46, 0.54]

/** What lines and marks of the profile are: above it, or beside it where the drawing is broad and low. */
export function profileKey(props: DepthProfileProps, room: KeyRoom): ProfileKey {
  const entries = entriesOf(props, room.fontPixels)
  for (const share of sharesBeside) {
    const beside = keyBeside(entries, room, share)
    if (beside) return beside
  }
  return keyAbove(entries, room)
}

function keyAbove(entries: readonly Entry[], { widthPixels, fontPixels: font }: KeyRoom): ProfileKey {
  const marks = entries.flatMap((entry, place) => {
    const at = font * (1 + lineHeight * place)
    const { says, short = says } = entry
    const fits = textWidth(says, font) <= widthPixels - font * 3
    return [...entry.sign(4, at - font * 0.35), keyName(entry, font * 3, at, fits ? says : short)]
  })
  return { marks, abovePixels: font * lineHeight * entries.length, besidePixels: 0 }
}

/** Null where it takes no height that the profile misses, or does not fit. */
function keyBeside(
  entries: readonly Entry[],
  { widthPixels, heightPixels, fontPixels: font }: KeyRoom,
  mostShare: number,
): ProfileKey | null {
  if (widthPixels < broad * heightPixels || entries.length < 2) return null
  const most = widthPixels * mostShare - font * 4
  const folded = entries.map((entry) => ({ entry, lines: wrapped(entry.says, most, font) }))
  const broadest = Math.max(...folded.flatMap(({ lines }) => lines.map((text) => textWidth(text, font))))
  const between = font * 0.4
  const height = folded.reduce((sum, { lines }) => sum + lines.length * font * lineHeight + between, 0)
  if (broadest > most || height > heightPixels) return null
  const besidePixels = broadest + font * 4
  const left = widthPixels - besidePixels + font
  let top = 0
  const marks = folded.flatMap(({ entry, lines }) => {
    const first = top + font
    top += lines.length * font * lineHeight + between
    return [
      ...entry.sign(left, first - font * 0.35),
      ...lines.map((text, at) => keyName(entry, left + font * 3, first + at * font * lineHeight, text)),
    ]
  })
  return { marks, abovePixels: 0, besidePixels }
}

const keyName = ({ strong }: Entry, x: number, y: number, text: string): Mark =>
  label(strong ? 'key-name strong' : 'key-name', x, y, text)

/** Words in as many lines as they need; one that is broader by itself has a line of its own. */
function wrapped(text: string, mostPixels: number, font: number): readonly string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && textWidth(`${last} ${word}`, font) <= mostPixels)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

function entriesOf(props: DepthProfileProps, font: number): readonly Entry[] {
  const { water, expected, stresses } = props
  const stroke = (className: string) => (left: number, middle: number) => [
    path(className, `M${left.toFixed(1)} ${middle.toFixed(1)}h${(font * 2.2).toFixed(1)}`),
  ]
  return [
    ...props.curves.map((curve, place): Entry => {
      const ink = `ink-${place % 6}`
      return {
        ...curveWords(props, curve),
        sign: (left, middle) => [
          ...(props.joined ? stroke(`trace ${ink}`)(left, middle) : []),
          dateMark(place === 0 ? 'key-now' : `past ${ink}`, place, left + font * 1.1, middle, font * 0.42),
        ],
        strong: place === 0,
      }
    }),
    ...(water ? [{ says: water.sentence, sign: stroke('hydrostatic') }] : []),
    ...(expected
      ? [
          {
            says: expected.sentence,
            sign: (left: number, middle: number) => [
              path(
                'expected',
                `M${left.toFixed(1)} ${(middle - font * 0.4).toFixed(1)}h${font * 2.2}v${font * 0.8}h${-font * 2.2}Z`,
              ),
            ],
          },
        ]
      : []),
    ...(stresses
      ? [
          {
            says: 'Total stress from the layers; × effective stress σ′ in each date’s ink',
            sign: (left: number, middle: number) => stressSigns(font, left, middle),
          },
        ]
      : []),
  ]
}

function curveWords(
  { timeZone, waiting }: Pick<DepthProfileProps, 'timeZone' | 'waiting'>,
  { heading, atEpochMs, readings }: ProfileCurve,
): Pick<Entry, 'says' | 'short'> {
  const ages = readings.flatMap((reading) =>
    reading.atEpochMs === null ? [] : [atEpochMs - reading.atEpochMs],
  )
  const oldest =
    ages.length === 0
      ? waiting
        ? 'asked for'
        : 'no readings by then'
      : `oldest reading ${formatAge(Math.max(...ages))}`
  const late = readings.filter(isNotCurrent).length
  const instant = formatInstant(atEpochMs, timeZone)
  // A heading that is the date itself is said once, with all of it.
  const isDate = instant.endsWith(heading) || heading === formatShortInstant(atEpochMs, timeZone)
  const when = isDate ? instant : `${heading}: ${instant}`
  const lateness = late > 0 ? `; ${late} late (hollow)` : ''
  // Ages are left to the table before what is late is.
  return { says: `${when}; ${oldest}${lateness}`, short: `${when}${lateness}` }
}
