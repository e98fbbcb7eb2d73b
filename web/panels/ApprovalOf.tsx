import { createSignal, For, Show } from 'solid-js'
import { hindranceTo } from '../state/permitted.ts'
import { spanEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { ApprovalForm } from './ApprovalForm.tsx'
import { ApprovalWithdrawalForm } from './ApprovalWithdrawalForm.tsx'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { approvalSentence } from './approval-sentence.ts'
import { doubtsWithin } from './doubts-within.ts'

/** How far the readings of an instrument are approved, by whom, and the forms to approve more or to take it back. */
export function ApprovalOf(props: { instrument: string }) {
  const [entering, setEntering] = createSignal(false)
  const [leaving, setLeaving] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const own = () => (siteDocument()?.approvals ?? []).filter((one) => one.instrument === props.instrument)
  const doubtsOf = (from: number, until: number) => {
    const document = siteDocument()
    return document ? doubtsWithin(document, [props.instrument], from, until) : []
  }
  const wanted = () => own().find(({ id }) => id === leaving())
  return (
    <section aria-label="Approval of its readings">
      <h3>Approval of its readings</h3>
      <p>{approvalSentence(own(), zone())}</p>
      <Show when={own().length > 0}>
        <table class="plain">
          <caption>Approvals</caption>
          <thead>
            <tr>
              <th scope="col">From, until</th>
              <th scope="col">By</th>
              <th scope="col">What was looked at</th>
            </tr>
          </thead>
          <tbody>
            <For each={own()}>
              {(one) => (
                <tr classList={{ 'not-standing': one.changedSince }}>
                  <th scope="row">
                    {formatShortInstant(one.fromEpochMs, zone())} to{' '}
                    {formatShortInstant(one.untilEpochMs, zone())}
                  </th>
                  <td>
                    {one.approver} <small>{formatShortInstant(one.approvedAtEpochMs, zone())}</small>
                  </td>
                  <td>
                    {one.statement}
                    <Show when={one.changedSince}>
                      <p class="trouble">
                        Provisional again: calibration, wiring or another record behind these values was
                        changed since.
                      </p>
                    </Show>
                    <Show when={!one.compared}>
                      <p class="trouble">
                        It came with the site's folder and does not say what its values were made by: whether
                        calibration or wiring changed since is not told.
                      </p>
                    </Show>
                    <For each={doubtsOf(one.fromEpochMs, one.untilEpochMs)}>
                      {(doubt) => <p class="trouble">{doubt}</p>}
                    </For>
                    <Show when={hindranceTo('approve-readings') === null}>
                      <div class="buttons">
                        <button
                          type="button"
                          aria-label={`Take ${one.id} back`}
                          onClick={() => setLeaving(one.id)}
                        >
                          Take it back
                        </button>
                      </div>
                    </Show>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </Show>
      <Show when={wanted()} keyed>
        {(approval) => <ApprovalWithdrawalForm approval={approval} leave={() => setLeaving(null)} />}
      </Show>
      <Show
        when={entering()}
        fallback={
          <WhenAllowed to="approve-readings">
            <div class="buttons">
              <button type="button" onClick={() => setEntering(true)}>
                Approve readings
              </button>
            </div>
          </WhenAllowed>
        }
      >
        <ApprovalForm
          instrument={props.instrument}
          from={Math.max(...own().map(({ untilEpochMs }) => untilEpochMs), spanEpochMs().fromEpochMs)}
          leave={() => setEntering(false)}
        />
      </Show>
    </section>
  )
}
