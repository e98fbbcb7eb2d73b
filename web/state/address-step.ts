import type { AddressState } from './address-state.ts'

/** True where going from one to the other is a step that the browser's Back should undo. */
export function isStep(from: AddressState, to: AddressState): boolean {
  const place = (state: AddressState) =>
    JSON.stringify([
      state.site,
      state.selection,
      state.tab,
      state.analysis,
      state.fieldPage,
      state.networkPage,
      state.reviewPage,
      state.alertsPage,
      state.openedAlert,
      state.openedMeeting,
      state.sectionLine,
      state.layers,
    ])
  return place(from) !== place(to)
}
