import { For } from 'solid-js'
import { slopeGuidanceCaution } from '#domain/ground/slope-guidance.ts'
import type { SlopeMap } from '#domain/ground/slope-map.ts'
import { decimalsFor, nothingTold, oneInText, slopeText, toldAreaText } from '../../derived/slope-text.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { PlainTable } from './PlainTable.tsx'

/** The map of slopes as numbers: area by band, what is not told, and published values beside it. */
export function SlopeTables(props: { slopes: SlopeMap }) {
  const name = () => (props.slopes.aspect === 'slope' ? 'Slope' : 'Angular distortion')
  const area = (squareMetres: number) => withUnit(formatValue(squareMetres, 0), 'm²')
  const number = (value: number) => formatValue(value, Math.min(3, decimalsFor(value)))
  return (
    <section class="ground-part" aria-label={`${name()} of the ground`}>
      <h2>{name()} of the ground</h2>
      <dl class="facts">
        <div>
          <dt>{props.slopes.aspect === 'slope' ? 'Steepest told' : 'Greatest told'}</dt>
          <dd>
            {props.slopes.steepest === null
              ? nothingTold
              : `${slopeText(props.slopes.steepest.mmPerMetre)} at E ${formatValue(props.slopes.steepest.place[0], 0)} N ${formatValue(props.slopes.steepest.place[1], 0)}`}
          </dd>
        </div>
        <div>
          <dt>Its standard error</dt>
          <dd>
            {props.slopes.steepest?.standardError == null
              ? 'not known'
              : withUnit(number(props.slopes.steepest.standardError), 'mm/m')}
          </dd>
        </div>
        <div>
          <dt>Not known (hatched)</dt>
          <dd>{area(props.slopes.untoldSquareMetres)}</dd>
        </div>
      </dl>
      <PlainTable
        caption={`${name()} where it is told`}
        headings={['From, mm/m', 'To, mm/m', 'Up to one in', 'Area']}
        rows={props.slopes.areas.map(({ low, high, squareMetres }) => [
          number(low),
          number(high),
          oneInText(high),
          area(squareMetres),
        ])}
      />
      <PlainTable
        caption="Published values, for reading only"
        headings={['Value', 'What is written of it', 'Source', 'Area at or above it']}
        rows={props.slopes.guidance.map(({ oneIn, says, source, squareMetres }) => [
          `1:${oneIn}`,
          says,
          source,
          toldAreaText(squareMetres, props.slopes.untoldSquareMetres),
        ])}
      />
      <p class="trouble">{slopeGuidanceCaution}</p>
      <For each={props.slopes.notes}>{(note) => <p>{note}</p>}</For>
    </section>
  )
}
