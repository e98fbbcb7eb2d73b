/** Each logger with its gateway, what was measured and what is predicted. */
export function LinksPage() {
  return (
    <section class="network-page" aria-label="Radio links">
      <p>Each logger with its gateway, what was measured and what is predicted.</p>
    </section>
  )
}
