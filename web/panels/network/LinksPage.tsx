import { createMemo, For, Show } from 'solid-js'
import type { LoggerStudy, NetworkStudy } from '#domain/radio/network-study.ts'
import type { SpotPath } from '#domain/radio/spot-paths.ts'
import {
  countsText,
  deliveryAt,
  deliveryText,
  linkCautions,
  measuredText,
  pathText,
  percentText,
  proofNames,
} from '../../derived/radio/link-sentences.ts'
import { networkTrouble } from '../../state/network-study.ts'
import { shownFactor } from '../../state/radio-plan.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisAccount } from '../ground/AnalysisAccount.tsx'
import { MeasuredOnly } from './MeasuredOnly.tsx'
import { ReliabilityTable } from './ReliabilityTable.tsx'
import { StudyShown } from './StudyShown.tsx'
import { WantedFields } from './WantedFields.tsx'

/** Each logger with its gateway, what was measured and what is predicted. */
export function LinksPage() {
  return (
    <section class="network-page" aria-label="Radio links">
      <WantedFields />
      <StudyShown>
        {(study) => (
          <>
            <p>{summaryOf(study())}</p>
            <LoggerList study={study()} />
            <For each={study().account.remarks}>{(remark) => <p class="key-note">{remark}</p>}</For>
            <Show when={study().check}>{(check) => <ReliabilityTable rows={check().reliability} />}</Show>
            <AnalysisAccount
              of="radio links"
              account={study().account}
              nameOf={(spot: SpotPath) => spot.test}
            />
          </>
        )}
      </StudyShown>
      <Show when={networkTrouble()}>
        <MeasuredOnly />
      </Show>
    </section>
  )
}

function summaryOf({ loggers, wantedShare }: NetworkStudy): string {
  const count = (state: LoggerStudy['proof']['state']) =>
    loggers.filter(({ proof }) => proof.state === state).length
  const predicted = loggers.flatMap(({ links }) => deliveryAt(links[0], shownFactor()) ?? [])
  const below = predicted.filter(({ middleShare }) => middleShare < wantedShare).length
  const open = predicted.filter(
    ({ middleShare, interval }) => middleShare >= wantedShare && interval.low < wantedShare,
  ).length
  return `${loggers.length} loggers: ${count('proven')} proven as the works stand, ${count('to-be-proved-again')} to be proved again, ${count('not-settled')} accepted but not settled, ${count('not-accepted')} not accepted, ${count('never-tested')} never tested. ${below} predicted below ${percentText(wantedShare)} at SF ${shownFactor()}, ${open} above it with an interval that reaches below.`
}

/** What is weakest first: least predicted, then by name. */
function LoggerList(props: { study: NetworkStudy }) {
  const ordered = createMemo(() =>
    props.study.loggers.toSorted(
      (one, other) => (one.links[0]?.signal.signalDbm ?? -999) - (other.links[0]?.signal.signalDbm ?? -999),
    ),
  )
  return (
    <ul class="link-list">
      <For each={ordered()}>{(one) => <LoggerRow one={one} wantedShare={props.study.wantedShare} />}</For>
    </ul>
  )
}

function LoggerRow(props: { one: LoggerStudy; wantedShare: number }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const best = () => props.one.links[0]
  return (
    <li data-proof={props.one.proof.state}>
      <details>
        <summary>
          <strong>{props.one.logger.id}</strong>{' '}
          <span class="link-proof">{proofNames[props.one.proof.state]}</span>
          <span class="link-line">{measuredText(props.one.proof)}</span>
          <span class="link-line">
            Predicted at SF {shownFactor()} to {best()?.gateway ?? 'no gateway'}:{' '}
            {deliveryText(deliveryAt(best(), shownFactor()))}
          </span>
        </summary>
        <Show when={props.one.proof.atEpochMs}>
          {(at) => <p class="key-note">Tested {formatShortInstant(at(), zone())}.</p>}
        </Show>
        <For each={linkCautions(props.one, props.wantedShare)}>
          {(caution) => <p class="link-caution">{caution}</p>}
        </For>
        <Show when={countsText(props.one.proof).length > 0}>
          <details class="record-more">
            <summary>Counts of the test at every factor</summary>
            <ul>
              <For each={countsText(props.one.proof)}>{(line) => <li>{line}</li>}</For>
            </ul>
          </details>
        </Show>
        <For each={props.one.links}>
          {(link) => (
            <p class="key-note">
              {link.gateway}: {pathText(link)}.
            </p>
          )}
        </For>
        <table class="plain">
          <caption>Predicted delivery to {best()?.gateway}, with its 90 % interval</caption>
          <thead>
            <tr>
              <th scope="col">SF</th>
              <th scope="col">Margin, dB</th>
              <th scope="col">Delivery</th>
              <th scope="col">Mean of all it may be</th>
              <th scope="col">Chance of the wanted</th>
            </tr>
          </thead>
          <tbody>
            <For each={best()?.deliveries ?? []}>
              {(delivery) => (
                <tr>
                  <th scope="row">{delivery.spreadingFactor}</th>
                  <td>{delivery.marginDb.toFixed(0).replace('-', '−')}</td>
                  <td>{deliveryText(delivery)}</td>
                  <td>{percentText(delivery.share)}</td>
                  <td>{percentText(delivery.chanceOfWanted)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </details>
    </li>
  )
}
