/**
 * What an alert may have to say: a level was passed; nobody answered and the next are told; a channel has no current
 * data; it was closed, with its reason; or an exercise of the whole way from reading to person.
 */
export const alertKinds = ['raised', 'escalated', 'silence', 'closed', 'drill'] as const
export type AlertKind = (typeof alertKinds)[number]
