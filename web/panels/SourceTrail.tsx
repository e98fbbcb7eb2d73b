import { For, Show } from 'solid-js'
import type { TrailSource } from '#contract/trail.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { withUnit } from '../ui/format-value.ts'
import { LevelLines } from './LevelLines.tsx'
import { TrailSteps } from './TrailSteps.tsx'
import { numberText } from './trail-numbers.ts'

const roleNames: Readonly<Record<TrailSource['role'], string>> = {
  reading: 'Reading',
  temperature: 'Temperature',
  barometer: 'Barometer',
  member: 'Member',
}

/** One raw reading that a value was made of: where it came from, and its steps. */
export function SourceTrail(props: { source: TrailSource; zone: string }) {
  return (
    <details class="trail-source" open={props.source.role === 'reading'}>
      <summary>
        {roleNames[props.source.role]}: {props.source.series} ={' '}
        {withUnit(numberText(props.source.value), props.source.unit)}
      </summary>
      <dl class="facts">
        <div>
          <dt>Raw reading</dt>
          <dd>
            {withUnit(numberText(props.source.raw), props.source.rawUnit)}, {props.source.logger} channel{' '}
            {props.source.channel}
          </dd>
        </div>
        <div>
          <dt>Read, received</dt>
          <dd>
            {formatInstant(props.source.atEpochMs, props.zone)}, received{' '}
            {formatInstant(props.source.receivedAtEpochMs, props.zone)}
          </dd>
        </div>
        <div>
          <dt>File</dt>
          <dd>
            {props.source.fileName} <small class="hash">SHA-256 {props.source.sha256}</small>
            <Show when={props.source.fileRemark}>
              {(remark) => (
                <>
                  <p>{remark()}</p>
                  <LevelLines sha256={props.source.sha256} point={props.source.channel} />
                </>
              )}
            </Show>
          </dd>
        </div>
        <div>
          <dt>Calibration</dt>
          <dd>
            {props.source.calibration}, version {props.source.calibrationVersion}
            {props.source.certificate ? `, certificate ${props.source.certificate}` : ''}
          </dd>
        </div>
      </dl>
      <TrailSteps steps={props.source.steps} />
      <Show when={props.source.ventingSentence}>{(sentence) => <p>{sentence()}</p>}</Show>
      <Show when={props.source.clockSentence}>{(sentence) => <p>{sentence()}</p>}</Show>
      <Show when={props.source.barometerSentence}>{(sentence) => <p>{sentence()}</p>}</Show>
      <For each={props.source.uncertaintySentences}>{(sentence) => <p>{sentence}</p>}</For>
    </details>
  )
}
