/** What a planned obstruction would do to each link. */
export function ObstructionPage() {
  return (
    <section class="network-page" aria-label="Obstruction">
      <p>What a planned obstruction would do to each link.</p>
    </section>
  )
}
