import { createSignal } from 'solid-js'

/** What is asked of the radio network, in the order in which it is offered. */
export const networkPages = ['links', 'obstruction', 'gateways'] as const
export type NetworkPage = (typeof networkPages)[number]

export const firstNetworkPage: NetworkPage = 'links'

const [networkPage, setNetworkPage] = createSignal<NetworkPage>(firstNetworkPage)

export { networkPage }

export function openNetworkPage(page: NetworkPage): void {
  setNetworkPage(page)
}
