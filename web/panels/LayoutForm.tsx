import { createSignal, For, type JSX, Show } from 'solid-js'
import type { Layout } from '#contract/layout.ts'
import { ServerRefused, sentenceOf } from '../state/ask-server.ts'
import { fieldsOf, type LayoutFields, layoutOf } from './layout-fields.ts'

type FieldName = keyof LayoutFields

const choices: Readonly<Partial<Record<FieldName, readonly string[]>>> = {
  encoding: ['utf-8', 'utf-16le', 'windows-1252'],
  delimiter: [',', ';', 'tab', '|', 'space'],
  decimalMark: ['.', ','],
  shape: ['wide', 'long'],
}

/** A proposed layout to correct and declare; what the server refuses is said with its place. */
export function LayoutForm(props: {
  proposed: Layout
  loggers: readonly string[]
  declare: (layout: unknown, reason: string) => Promise<void>
}) {
  const [fields, setFields] = createSignal(fieldsOf(props.proposed))
  const [reason, setReason] = createSignal('')
  const [faults, setFaults] = createSignal<readonly string[]>([])

  const submit = async (event: SubmitEvent) => {
    event.preventDefault()
    setFaults([])
    try {
      await props.declare(layoutOf(fields()), reason())
    } catch (cause) {
      const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
      setFaults(
        issues.length > 0
          ? issues.map((issue) => `${issue.column ?? 'layout'}: ${issue.message}`)
          : [sentenceOf(cause)],
      )
    }
  }

  const field = (name: FieldName, label: string, hint?: string, required = false): JSX.Element => (
    <div class="layout-field">
      <label for={`layout-${name}`}>{label}</label>
      <Show
        when={choices[name]}
        fallback={
          <input
            id={`layout-${name}`}
            required={required}
            list={name === 'logger' ? 'layout-loggers' : undefined}
            value={fields()[name]}
            onInput={(event) => setFields({ ...fields(), [name]: event.currentTarget.value })}
          />
        }
      >
        {(list) => (
          <select
            id={`layout-${name}`}
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
    </div>
  )

  return (
    <details class="layout-form">
      <summary>Declare a layout for files like this one</summary>
      <form onSubmit={(event) => void submit(event)}>
        <datalist id="layout-loggers">
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
          {field('timePattern', 'Pattern', 'yyyy MM dd HH mm ss, or iso, epoch-s, epoch-ms', true)}
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
        <label class="layout-field">
          <span>Why it is declared so</span>
          <input required value={reason()} onInput={(event) => setReason(event.currentTarget.value)} />
        </label>
        <Show when={faults().length > 0}>
          <ul class="trouble" role="alert">
            <For each={faults()}>{(fault) => <li>{fault}</li>}</For>
          </ul>
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
