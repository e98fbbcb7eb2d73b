import { For } from 'solid-js'
import type { CommissioningStanding, StepStanding } from '#domain/field/commissioning-standing.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { formatInstant } from '../../../ui/format-instant.ts'

/** The signed record on paper: every step with its evidence, author and time. */
export function CommissioningRecord(props: { logger: string; standing: CommissioningStanding }) {
  const facts = () => siteDocument()?.facts
  const zone = () => facts()?.timeZone ?? 'UTC'
  return (
    <article class="record-sheet">
      <h1>
        Commissioning of {props.logger}, {facts()?.name}
      </h1>
      <p>
        {facts()?.invented ? 'Invented data. ' : ''}
        {props.standing.status === 'signed'
          ? `Signed by ${props.standing.signedBy}, ${formatInstant(props.standing.signedAtEpochMs ?? 0, zone())}.`
          : 'Not signed.'}{' '}
        {props.standing.sentences.join(' ')}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">Step</th>
            <th scope="col">Standing</th>
            <th scope="col">What was found</th>
            <th scope="col">By, at</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.standing.steps}>
            {(one) => (
              <tr>
                <th scope="row">{one.step.title}</th>
                <td>{one.standing.replace('-', ' ')}</td>
                <td>{evidenceText(one)}</td>
                <td>
                  {one.entries
                    .map(
                      ({ author, writtenAtEpochMs }) =>
                        `${author}, ${formatInstant(writtenAtEpochMs, zone())}`,
                    )
                    .join('; ')}
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <p>
        Times by the clock of the device. Monitoring data support, and do not replace, the judgement of the
        responsible engineer.
      </p>
    </article>
  )
}

function evidenceText({ step, entries }: StepStanding): string {
  return entries
    .map(({ body }) =>
      [
        ...step.fields.flatMap(({ name, label, unit }) => {
          const value = body.evidence[name] ?? null
          if (value === null || value === '') return []
          const said = value === true ? 'yes' : value === false ? 'no' : `${value}${unit ? ` ${unit}` : ''}`
          return [`${label}: ${said}`]
        }),
        ...(body.reason === '' ? [] : [body.reason]),
      ].join('; '),
    )
    .join(' | ')
}
