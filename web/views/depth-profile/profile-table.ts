import { unitSymbol } from '#domain/units.ts'
import { formatAge, formatInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { type DepthProfileProps, isNotCurrent, type ProfileCurve } from './profile-props.ts'

/** The numbers of the profile: a row a point, a value and an age a date. */
export function profileTable(props: DepthProfileProps) {
  const named = (what: string) => (curve: ProfileCurve) =>
    `${what}, ${formatInstant(curve.atEpochMs, props.timeZone)}`
  const ordered = [...props.points].sort((left, right) => left.depthMetres - right.depthMetres)
  return {
    caption: `${props.instrument}: ${props.valueName.toLowerCase()}, ${unitSymbol(props.unit)}. ${props.positiveMeans}`,
    headings: [
      'Point',
      'Depth, m',
      `Level, m ${props.datum}`,
      ...props.curves.flatMap((curve) => [formatInstant(curve.atEpochMs, props.timeZone), 'Age']),
      ...(props.expected ? [props.expected.sentence] : []),
      ...(props.stresses ? ['Total stress, kPa', ...props.curves.map(named('Effective stress, kPa'))] : []),
      ...(props.strains ? props.curves.map(named('Strain above, mm/m')) : []),
    ],
    rows: ordered.map((point) => [
      point.point,
      formatValue(point.depthMetres, 2),
      formatValue(point.levelMetres, 2),
      ...props.curves.flatMap((curve) => {
        const reading = curve.readings.find((one) => one.point === point.point)
        if (!reading || reading.value === null) return ['no value', '–']
        const age = reading.atEpochMs === null ? '–' : formatAge(curve.atEpochMs - reading.atEpochMs)
        const told = reading.late
          ? `${age}, late`
          : reading.lateThrough
            ? `${age}, through late ${reading.lateThrough}`
            : age
        return [formatValue(reading.value, props.decimals), told]
      }),
      ...(props.expected ? [expectedText(props, point.point)] : []),
      ...stressCells(props, point.point),
      ...strainCells(props, point.point),
    ]),
  }
}

function stressCells({ stresses }: DepthProfileProps, point: string): readonly string[] {
  if (!stresses) return []
  const text = (kpa: number | undefined) => (kpa === undefined ? 'not known' : formatValue(kpa, 1))
  return [text(stresses.total.get(point)), ...stresses.effective.map((known) => text(known.get(point)))]
}

function strainCells({ strains }: DepthProfileProps, point: string): readonly string[] {
  if (!strains) return []
  const readings = strains.find((one) => one.point === point)?.readings ?? []
  return readings.map((reading) =>
    reading?.value == null ? 'no value' : `${formatValue(reading.value, 3)}${reading.late ? ', late' : ''}`,
  )
}

function expectedText({ expected, decimals }: DepthProfileProps, point: string): string {
  const at = expected?.atPoints.get(point)
  return at ? `${formatValue(at.low, decimals)} to ${formatValue(at.high, decimals)}` : '–'
}

/** What is missing or to be known of a profile, in sentences. */
export function profileRemarks(props: DepthProfileProps): readonly string[] {
  const sentences = [...props.remarks]
  if (props.still) sentences.push(props.still.sentence)
  sentences.push(...props.curves.flatMap((curve) => lateSentence(props, curve)))
  if (props.positiveMeans) sentences.push(`Positive means: ${props.positiveMeans}.`)
  const clock = props.curves[0]
  if (!clock) return sentences
  const late = clock.readings.filter((reading) => reading.late && reading.value !== null).length
  const absent = props.points.filter(
    (point) => (clock.readings.find((one) => one.point === point.point)?.value ?? null) === null,
  ).length
  if (late > 0)
    sentences.push(`${late} of ${props.points.length} points have no current data (hollow, hatched).`)
  if (absent > 0 && !props.waiting)
    sentences.push(`${absent} of ${props.points.length} points have no value at the clock.`)
  return sentences
}

/** Which depths of a curve are told through a reading that is not of its time. */
function lateSentence(props: DepthProfileProps, curve: ProfileCurve): string[] {
  const through = curve.readings.filter((one) => one.lateThrough && one.value !== null)
  const late = curve.readings.find(({ point }) => point === through[0]?.lateThrough)
  if (!late) return []
  const depths = curve.readings
    .filter((one) => one.value !== null && isNotCurrent(one))
    .flatMap(({ point }) => props.points.find((one) => one.point === point)?.depthMetres ?? [])
  const age = late.atEpochMs === null ? '' : `, read ${formatAge(curve.atEpochMs - late.atEpochMs)} before`
  return [
    `${formatInstant(curve.atEpochMs, props.timeZone)}: ${late.point} has no current data${age}, and ${through.length} of ${props.points.length} values are told through it. From ${formatValue(Math.min(...depths), 2)} to ${formatValue(Math.max(...depths), 2)} m depth the line is dotted and its marks are hollow: it is not the shape of that time.`,
  ]
}
