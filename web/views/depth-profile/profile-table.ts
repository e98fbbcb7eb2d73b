import { unitSymbol } from '#domain/units.ts'
import { formatAge, formatInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { DepthProfileProps } from './profile-props.ts'

/** The numbers of the profile: a row a point, a value and an age a date. */
export function profileTable(props: DepthProfileProps) {
  const ordered = [...props.points].sort((left, right) => left.depthMetres - right.depthMetres)
  return {
    caption: `${props.instrument}: ${props.valueName.toLowerCase()}, ${unitSymbol(props.unit)}. ${props.positiveMeans}`,
    headings: [
      'Point',
      'Depth, m',
      `Level, m ${props.datum}`,
      ...props.curves.flatMap((curve) => [formatInstant(curve.atEpochMs, props.timeZone), 'Age']),
      ...(props.expected ? [props.expected.sentence] : []),
    ],
    rows: ordered.map((point) => [
      point.point,
      formatValue(point.depthMetres, 2),
      formatValue(point.levelMetres, 2),
      ...props.curves.flatMap((curve) => {
        const reading = curve.readings.find((one) => one.point === point.point)
        if (!reading || reading.value === null) return ['no value', '–']
        const age = reading.atEpochMs === null ? '–' : formatAge(curve.atEpochMs - reading.atEpochMs)
        return [formatValue(reading.value, props.decimals), reading.late ? `${age}, late` : age]
      }),
      ...(props.expected ? [expectedText(props, point.point)] : []),
    ]),
  }
}

function expectedText({ expected, decimals }: DepthProfileProps, point: string): string {
  const at = expected?.atPoints.get(point)
  return at ? `${formatValue(at.low, decimals)} to ${formatValue(at.high, decimals)}` : '–'
}

/** What is missing or to be known of a profile, in sentences. */
export function profileRemarks(props: DepthProfileProps): readonly string[] {
  const sentences = [...props.remarks]
  if (props.still) sentences.push(props.still.sentence)
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
