/** Stands where a board has nothing to show: what is missing, and what cannot be concluded from that. */
export function Nothing(props: { missing: string; concluded: string }) {
  return (
    <div class="board-nothing">
      <p>
        <strong>{props.missing}</strong>
      </p>
      <p>{props.concluded}</p>
    </div>
  )
}
