import type { Component } from 'solid-js'
import type { NetworkPage } from '../../state/network-page.ts'

/** Names of the pages of the network, and the code of each, fetched when it is first opened. */
export const networkPageParts: Readonly<
  Record<NetworkPage, { readonly name: string; readonly load: () => Promise<Component> }>
> = {
  condition: { name: 'Condition', load: async () => (await import('./ConditionPage.tsx')).ConditionPage },
  links: { name: 'Radio links', load: async () => (await import('./LinksPage.tsx')).LinksPage },
  obstruction: {
    name: 'Obstruction',
    load: async () => (await import('./ObstructionPage.tsx')).ObstructionPage,
  },
  gateways: { name: 'Gateways', load: async () => (await import('./GatewaysPage.tsx')).GatewaysPage },
  plan: { name: 'Plan', load: async () => (await import('./PlanPage.tsx')).PlanPage },
}
