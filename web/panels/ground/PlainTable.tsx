import { For } from 'solid-js'

/** A table of text under its caption; the first column names the row. */
export function PlainTable(props: {
  caption: string
  headings: readonly string[]
  rows: readonly (readonly string[])[]
}) {
  return (
    <table class="plain">
      <caption>{props.caption}</caption>
      <thead>
        <tr>
          <For each={props.headings}>{(heading) => <th scope="col">{heading}</th>}</For>
        </tr>
      </thead>
      <tbody>
        <For each={props.rows}>
          {(row) => (
            <tr>
              <th scope="row">{row[0]}</th>
              <For each={row.slice(1)}>{(cell) => <td>{cell}</td>}</For>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  )
}
