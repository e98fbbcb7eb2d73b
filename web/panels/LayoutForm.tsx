import { createSignal, createUniqueId, For, type JSX, Show } from 'solid-js'
import type { Layout } from '#contract/layout.ts'
import { loopClosures } from '#domain/levelling/levelling-loop.ts'
import { ServerRefused, sentenceOf } from '../state/ask-server.ts'
import { faultsOfFields, faultsOfIssues, type LayoutFault, type LayoutPlace } from './layout-faults.ts'
import { fieldsOf, type LayoutFields, layoutOf } from './layout-fields.ts'

type FieldName = keyof LayoutFields

const choices: Readonly<Partial<Record<FieldName, readonly string[]>>> = {
  encoding: ['utf-8', 'utf-16le', 'windows-1252'],
  delimiter: [',', ';', 'tab', '|', 'space'],
  decimalMark: ['.', ','],
  shape: ['wide', 'long'],
  levelBook: ['no', 'yes'],
  share: ['setups', 'distance'],
}

const closureHint = `mm for a line of 1 km; grows with its root. ${loopClosures.map(({ order, k }) => `${order}: ${k}`).join('; ')}`

/** A layout to correct and declare; what is wrong with it stands beside the field that says it. */
export function LayoutForm(props: {
  heading: string
  proposed: Layout
  loggers: readonly string[]
  declare: (layout: unknown, reason: string) => Promise<void>
  open?: boolean
}) {
  const [fields, setFields] = createSignal(fieldsOf(props.proposed))
  const [reason, setReason] = createSignal('')
  const [faults, setFaults] = createSignal<readonly LayoutFault[]>([])
  const form = createUniqueId()
  const idOf = (place: LayoutPlace) => `${form}-${place}`
  const loggerList = `${form}-loggers`

  const submit = async (event: SubmitEvent) => {
    event.preventDefault()
    const seen = faultsOfFields(fields())
    showFaults(seen)
    if (seen.length > 0) return
    try {
      await props.declare(layoutOf(fields()), reason())
    } catch (cause) {
      const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
      showFaults(
        issues.length > 0 ? faultsOfIssues(issues) : [{ place: null, path: '', message: sentenceOf(cause) }],
      )
    }
  }
  const showFaults = (found: readonly LayoutFault[]) => {
    setFaults(found)
    const first = found.find(({ place }) => place !== null)?.place
    if (first) document.getElementById(idOf(first))?.focus()
  }
  const faultsAt = (place: LayoutPlace | null) => faults().filter((fault) => fault.place === place)
  const troubled = (place: LayoutPlace) =>
    faultsAt(place).length > 0
      ? ({ 'aria-invalid': 'true', 'aria-describedby': `${idOf(place)}-fault` } as const)
      : {}
  const faultText = (place: LayoutPlace): JSX.Element => (
    <Show when={faultsAt(place).length > 0}>
      <p class="field-fault" id={`${idOf(place)}-fault`}>
        {faultsAt(place)
          .map(({ message }) => message)
          .join(' ')}
      </p>
    </Show>
  )

  const field = (name: FieldName, label: string, hint?: string, required = false): JSX.Element => (
    <div class="layout-field">
      <label for={idOf(name)}>{label}</label>
      <Show
        when={choices[name]}
        fallback={
          <input
            id={idOf(name)}
            {...troubled(name)}
            required={required}
            list={name === 'logger' ? loggerList : undefined}
            value={fields()[name]}
            onInput={(event) => setFields({ ...fields(), [name]: event.currentTarget.value })}
          />
        }
      >
        {(list) => (
          <select
            id={idOf(name)}
            {...troubled(name)}
            value={fields()[name]}
            onChange={(event) => setFields({ ...fields(), [name]: event.currentTarget.value })}
          >
            <For each={list()}>{(choice) => <option value={choice}>{choice}</option>}</For>
          </select>
        )}
      </Show>
      <Show when={hint}>
        <small>{hint}</small>
      </Show>
      {faultText(name)}
    </div>
  )

  return (
    <details class="layout-form" open={props.open}>
      <summary>{props.heading}</summary>
      <form onSubmit={(event) => void submit(event)}>
        <datalist id={loggerList}>
          <For each={props.loggers}>{(logger) => <option value={logger} />}</For>
        </datalist>
        <fieldset>
          <legend>Name</legend>
          {field('id', 'Short name', 'small letters, digits and hyphens', true)}
          {field('title', 'Title', undefined, true)}
          {field('fileNamePattern', 'File names', 'regular expression; empty: known by content')}
        </fieldset>
        <fieldset>
          <legend>Text</legend>
          {field('encoding', 'Encoding')}
          {field('delimiter', 'Delimiter')}
          {field('decimalMark', 'Decimal mark')}
          {field('headerRows', 'Header rows', 'lines before the first reading', true)}
          {field('namesRow', 'Line of the column names', 'empty: there is none')}
        </fieldset>
        <fieldset>
          <legend>Time</legend>
          {field('timeColumns', 'Columns of the time', 'one, or date | time', true)}
          {field('timePattern', 'Pattern', 'yyyy MM dd HH mm ss, or iso, epoch-s, epoch-ms, serial', true)}
          {field('timeZone', 'Zone', 'UTC, -01:00 or a zone such as Atlantic/Azores', true)}
          {field('receivedColumn', 'Column of receipt', 'empty: the file’s own arrival counts')}
          {field('receivedPattern', 'Pattern of receipt')}
          {field('receivedZone', 'Zone of receipt')}
        </fieldset>
        <fieldset>
          <legend>Cells</legend>
          {field('absent', 'No reading', 'texts divided by |, besides the empty cell')}
          {field('faultCodes', 'Fault codes', 'numbers divided by |')}
        </fieldset>
        <fieldset>
          <legend>Channels</legend>
          {field('shape', 'Shape', 'wide: a column a channel; long: a row a reading')}
          {field('logger', 'Logger', 'for all rows; empty: the file names it')}
          <Show
            when={fields().shape === 'wide'}
            fallback={
              <>
                {field('loggerColumn', 'Column of the logger')}
                {field('channelColumn', 'Column of the channel')}
                {field('valueColumn', 'Column of the reading')}
                {field(
                  'levelBook',
                  'Level book',
                  'yes: a row is a setup, the channel the point ahead, the reading its foresight; levels that close are taken',
                )}
                <Show when={fields().levelBook === 'yes'}>
                  {field('lineColumn', 'Column of the level line')}
                  {field('setupColumn', 'Column of the setup', '1, 2, 3 … along its line')}
                  {field('behindColumn', 'Column of the point behind')}
                  {field('backsightColumn', 'Column of the backsight', 'm')}
                  {field('distanceColumn', 'Column of the length', 'of both sights together, m')}
                  {field('benchmarks', 'Benchmarks', 'VB-3 = 5.2140 | VB-4 = 4.1000, m', true)}
                  {field('closure', 'Closure allowed', closureHint, true)}
                  {field('share', 'Shared out by')}
                  {field('turningPoints', 'Turning points', 'regular expression; empty: there are none')}
                </Show>
              </>
            }
          >
            {field(
              'namePattern',
              'Column names',
              'regular expression with groups channel and, if need be, logger',
            )}
            {field('ignored', 'Columns to leave out', 'divided by |')}
          </Show>
        </fieldset>
        <div class="layout-field">
          <label for={idOf('reason')}>Why it is declared so</label>
          <input
            id={idOf('reason')}
            {...troubled('reason')}
            required
            value={reason()}
            onInput={(event) => setReason(event.currentTarget.value)}
          />
          {faultText('reason')}
        </div>
        <Show when={faults().length > 0}>
          <div class="trouble" role="alert">
            <p>The layout was not declared:</p>
            <ul>
              <For each={faults()}>
                {(fault) => (
                  <li>
                    {fault.path === '' ? '' : `${fault.path}: `}
                    {fault.message}
                  </li>
                )}
              </For>
            </ul>
          </div>
        </Show>
        <div class="buttons">
          <button type="submit" class="primary">
            Declare the layout
          </button>
        </div>
      </form>
    </details>
  )
}
