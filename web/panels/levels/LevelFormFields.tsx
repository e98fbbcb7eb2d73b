import { createUniqueId, For, Show } from 'solid-js'
import { type WatchedOfSeries, watchedOfSeries } from '#domain/site/vocabulary.ts'
import { siteDocument } from '../../state/site-document.ts'
import { LevelField } from './LevelField.tsx'
import { fieldsOfKind, type LevelFields } from './level-fields.ts'
import { nameOfLevel, watchedWords } from './level-names.ts'

/** The fields of a level as it is typed: those that its kind looks at, each with why it cannot be read. */
export function LevelFormFields(props: {
  fields: LevelFields
  write: (changed: Partial<LevelFields>) => void
  unread: (field: keyof LevelFields) => string | null
  /** Of the series. */
  unit: string
}) {
  const form = createUniqueId()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const looked = (field: keyof LevelFields) => fieldsOfKind[props.fields.watches].includes(field)
  const valueUnit = () =>
    props.fields.watches === 'silence'
      ? 'minutes'
      : props.fields.watches === 'rate'
        ? `${props.unit} a day`
        : props.unit
  const field = (
    name: keyof LevelFields,
    label: string,
    more: { hint?: string; type?: string; wide?: true; list?: string } = {},
  ) => (
    <LevelField
      form={form}
      name={name}
      label={label}
      {...more}
      value={props.fields[name]}
      fault={props.unread(name)}
      write={(value) => props.write({ [name]: value })}
    />
  )
  return (
    <div class="verdict-form">
      {field('series', 'Series', { hint: 'point/measure', list: `${form}-all-series` })}
      <datalist id={`${form}-all-series`}>
        <For each={siteDocument()?.series ?? []}>{({ id }) => <option value={id} />}</For>
      </datalist>
      {field('id', 'Name', { hint: 'of its own; names are kept' })}
      <div class="layout-field">
        <label for={`${form}-level`}>Number</label>
        <select
          id={`${form}-level`}
          value={props.fields.level}
          onInput={(event) => props.write({ level: event.currentTarget.value })}
        >
          <For each={siteDocument()?.facts.levelNames ?? []}>
            {(_, at) => <option value={at() + 1}>{nameOfLevel(at() + 1)}</option>}
          </For>
        </select>
      </div>
      <div class="layout-field">
        <label for={`${form}-watches`}>Watches</label>
        <select
          id={`${form}-watches`}
          value={props.fields.watches}
          onInput={(event) => props.write({ watches: event.currentTarget.value as WatchedOfSeries })}
        >
          <For each={watchedOfSeries}>{(kind) => <option value={kind}>{watchedWords[kind]}</option>}</For>
        </select>
      </div>
      <Show when={looked('direction')}>
        <div class="layout-field">
          <label for={`${form}-direction`}>Reached</label>
          <select
            id={`${form}-direction`}
            value={props.fields.direction}
            onInput={(event) =>
              props.write({ direction: event.currentTarget.value as LevelFields['direction'] })
            }
          >
            <option value="above">at or above it</option>
            <option value="below">at or below it</option>
            <option value="either">that far either way</option>
          </select>
        </div>
      </Show>
      <Show when={looked('value')}>
        {field('value', props.fields.watches === 'silence' ? 'Without a reading for' : 'Level', {
          hint: valueUnit(),
        })}
      </Show>
      <Show when={looked('against')}>
        {field('against', props.fields.watches === 'combination' ? 'Levels' : 'Less the series', {
          hint:
            props.fields.watches === 'combination'
              ? 'names of levels, separated by semicolons'
              : 'point/measure of the same unit',
          ...(props.fields.watches === 'combination' ? { wide: true } : { list: `${form}-all-series` }),
        })}
      </Show>
      <Show when={looked('needed')}>
        {field('needed', 'Held at once', { hint: 'how many of them; empty: all' })}
      </Show>
      <Show when={looked('windowMinutes')}>
        {field('windowMinutes', props.fields.watches === 'rate' ? 'Over' : 'Other reading at most so old', {
          hint: 'minutes; 1440 are a day',
        })}
      </Show>
      <Show when={looked('changeSince')}>
        {field('changeSince', 'Counted from the reading at', {
          type: 'datetime-local',
          hint: `site time, ${zone()}`,
        })}
      </Show>
      <Show when={looked('holdReadings')}>
        {field('holdReadings', 'Readings in a row', { hint: 'that must agree; empty: 1' })}
      </Show>
      <Show when={looked('holdMinutes')}>
        {field(
          'holdMinutes',
          props.fields.watches === 'silence' ? 'Ends once readings come for' : 'And for at least',
          {
            hint: 'minutes; empty: 0',
          },
        )}
      </Show>
      <Show when={looked('longestGapMinutes')}>
        {field('longestGapMinutes', 'No further apart than', { hint: 'minutes; empty: any' })}
      </Show>
      <Show when={looked('hysteresisPercent')}>
        {field('hysteresisPercent', 'Left so far behind it', { hint: 'percent of the level; empty: 0' })}
      </Show>
      <div class="layout-field">
        <label for={`${form}-stage`}>During stage</label>
        <select
          id={`${form}-stage`}
          value={props.fields.stage}
          onInput={(event) => props.write({ stage: event.currentTarget.value })}
        >
          <option value="">whatever the works do</option>
          <For each={siteDocument()?.stages ?? []}>
            {(stage) => <option value={stage.id}>{stage.name}</option>}
          </For>
        </select>
      </div>
      {field('validFrom', 'Applies from', { type: 'datetime-local', hint: `site time, ${zone()}` })}
      {field('validUntil', 'Until before', { type: 'datetime-local', hint: 'empty: without end' })}
      {field('action', 'What is done when it is reached', { wide: true })}
      {field('owner', 'Who does it', {})}
      {field('withinMinutes', 'Within', { hint: 'minutes' })}
      {field('reason', 'Where the value comes from', { wide: true })}
    </div>
  )
}
