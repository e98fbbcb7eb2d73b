import { createSignal } from 'solid-js'

/** What is asked of the radio network, in the order in which it is offered. */
export const networkPages = ['condition', 'links', 'obstruction', 'gateways', 'plan'] as const
export type NetworkPage = (typeof networkPages)[number]

export const firstNetworkPage: NetworkPage = 'condition'

const [networkPage, setNetworkPage] = createSignal<NetworkPage>(firstNetworkPage)

export { networkPage }

export function openNetworkPage(page: NetworkPage): void {
  setNetworkPage(page)
}
