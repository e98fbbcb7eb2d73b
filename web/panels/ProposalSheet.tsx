import { createSignal, For, Show } from 'solid-js'
import type { LayoutProposal } from '#contract/layout-proposal.ts'
import { formatInstant, formatOffset } from '../ui/format-instant.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { LayoutForm } from './LayoutForm.tsx'

/** What a first look makes of a file, with its first rows as they would be understood. */
export function ProposalSheet(props: {
  fileName: string
  proposal: LayoutProposal
  zone: string
  loggers: readonly string[]
  take: (layout: string | null) => void
  declare: (layout: unknown, reason: string) => Promise<void>
  leave: () => void
}) {
  const [layout, setLayout] = createSignal<string | null>(null)
  return (
    <section class="proposal" aria-label={`First look at ${props.fileName}`}>
      <h2>{props.fileName}</h2>
      <p>{props.proposal.summary}</p>
      <Show when={props.proposal.zoneAssumed}>
        <p class="trouble">Nothing in the file says which zone its times are in; it was assumed.</p>
      </Show>
      <Show when={props.proposal.doubts.length > 0}>
        <ul class="doubts">
          <For each={props.proposal.doubts}>{(doubt) => <li>{doubt}</li>}</For>
        </ul>
      </Show>
      <Show when={props.proposal.preview.length > 0}>
        <div class="scroll-across">
          <table class="plain">
            <caption>First rows as they would be understood</caption>
            <thead>
              <tr>
                <th scope="col">Line</th>
                <th scope="col">Time in the file</th>
                <th scope="col">Site time</th>
                <th scope="col">Readings</th>
              </tr>
            </thead>
            <tbody>
              <For each={props.proposal.preview}>
                {(row) => (
                  <tr>
                    <th scope="row">{row.line}</th>
                    <td>{row.timeText}</td>
                    <td>
                      {row.atEpochMs === null
                        ? 'cannot be read'
                        : `${formatInstant(row.atEpochMs, props.zone)} ${formatOffset(row.atEpochMs, props.zone)}`}
                    </td>
                    <td>
                      <For each={row.readings.slice(0, 4)}>
                        {(reading) => (
                          <span
                            class="preview-reading"
                            classList={{ doubtful: !reading.loggerKnown || reading.raw === null }}
                          >
                            {reading.logger}/{reading.channel} {reading.text}
                            {reading.loggerKnown ? '' : ' (logger not registered)'}
                          </span>
                        )}
                      </For>
                      <Show when={row.readings.length > 4}> and {row.readings.length - 4} more</Show>
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
      </Show>
      <Show when={props.proposal.fits.length > 0}>
        <label class="key-field">
          Layout
          <select onChange={(event) => setLayout(event.currentTarget.value || null)}>
            <option value="">Chosen by intake: {props.proposal.fits[0]?.title}</option>
            <For each={props.proposal.fits}>
              {(fit) => (
                <option value={fit.id}>
                  {fit.title}, version {fit.version}
                </option>
              )}
            </For>
          </select>
        </label>
      </Show>
      <Show when={props.proposal.fits.length === 0}>
        <p class="trouble">
          No declared layout fits this file. Taken in now it would be kept and refused, with the reason;
          declare its layout first.
        </p>
      </Show>
      <Show when={props.proposal.layout}>
        {(proposed) => (
          <WhenAllowed to="change-records">
            <LayoutForm
              heading={
                props.proposal.fits.length > 0
                  ? 'Declare another layout for files like this one'
                  : 'Declare a layout for files like this one'
              }
              proposed={proposed()}
              loggers={props.loggers}
              declare={props.declare}
            />
          </WhenAllowed>
        )}
      </Show>
      <div class="buttons">
        <WhenAllowed to="add">
          <button type="button" class="primary" onClick={() => props.take(layout())}>
            Take it in
          </button>
        </WhenAllowed>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </section>
  )
}
