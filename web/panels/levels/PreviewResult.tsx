import { For, Show } from 'solid-js'
import type { LevelPreview, TriedLevel } from '#contract/level-proposals.ts'
import type { ProposalRemark } from '#domain/levels/level-proposal.ts'
import { watchedQuantity } from '#domain/levels/level-words.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant, formatShortInstant } from '../../ui/format-instant.ts'

const mostRemarks = 30

/** What speaks against changes, and what they would have raised on past values beside what was raised. */
export function PreviewResult(props: { preview: LevelPreview; named: boolean }) {
  const faults = () => props.preview.remarks.filter(({ severity }) => severity === 'fault')
  const warnings = () => props.preview.remarks.filter(({ severity }) => severity === 'warning')
  return (
    <div class="levels-preview">
      <Show when={props.preview.issues.length > 0}>
        <ul class="trouble">
          <For each={props.preview.issues}>{({ message }) => <li>{message}</li>}</For>
        </ul>
      </Show>
      <Remarks title="This refuses it" remarks={faults()} named={props.named} />
      <Remarks title="Whoever approves is told" remarks={warnings()} named={props.named} />
      <Show when={props.preview.remarks.length === 0 && props.preview.issues.length === 0}>
        <p>Nothing is found against it.</p>
      </Show>
      <Show when={props.preview.proposed.length + props.preview.present.length > 0}>
        <div class="scroll-across">
          <table class="plain">
            <caption>What would have been raised on past values</caption>
            <thead>
              <tr>
                <th scope="col">Level</th>
                <th scope="col">Tried</th>
                <th scope="col">Raised</th>
                <th scope="col">Reached, but not for long enough</th>
                <th scope="col">Newest</th>
              </tr>
            </thead>
            <tbody>
              <For each={props.preview.proposed}>{(tried) => <Tried tried={tried} as="proposed" />}</For>
              <For each={props.preview.present}>{(tried) => <Tried tried={tried} as="as it is" />}</For>
            </tbody>
          </table>
        </div>
      </Show>
    </div>
  )
}

function Remarks(props: { title: string; remarks: readonly ProposalRemark[]; named: boolean }) {
  return (
    <Show when={props.remarks.length > 0}>
      <p class="trouble">{props.title}:</p>
      <ul>
        <For each={props.remarks.slice(0, mostRemarks)}>
          {({ level, sentence }) => (
            <li>
              <Show when={props.named && level !== null}>{level}: </Show>
              {sentence}
            </li>
          )}
        </For>
        <Show when={props.remarks.length > mostRemarks}>
          <li>and {props.remarks.length - mostRemarks} more like these</li>
        </Show>
      </ul>
    </Show>
  )
}

function Tried(props: { tried: TriedLevel; as: string }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const unit = () => siteDocument()?.series.find(({ id }) => id === props.tried.series)?.unit ?? ''
  return (
    <tr>
      <th scope="row">
        {props.tried.level} <small>{props.as}</small>
      </th>
      <td>
        {formatShortInstant(props.tried.fromEpochMs, zone())} –{' '}
        {formatShortInstant(props.tried.untilEpochMs, zone())}
      </td>
      <td>{props.tried.raised}</td>
      <td>{props.tried.crossedOnly}</td>
      <td>
        <Show when={props.tried.episodes[0]} fallback="never reached">
          {(episode) => (
            <>
              {formatInstant(episode().crossedAtEpochMs, zone())}
              {episode().leftAtEpochMs === null
                ? ', reached still'
                : ` until ${formatShortInstant(episode().leftAtEpochMs ?? 0, zone())}`}
              <small>
                {' '}
                furthest {watchedQuantity(props.tried, Number(episode().peakValue.toPrecision(4)), unit())}
              </small>
            </>
          )}
        </Show>
      </td>
    </tr>
  )
}
