/** What moving or raising a gateway would gain. */
export function GatewaysPage() {
  return (
    <section class="network-page" aria-label="Gateways">
      <p>What moving or raising a gateway would gain.</p>
    </section>
  )
}
