/** What can be odd about readings, each a question of its own: what was read, what was not, when, and a single one. */
export const oddities = ['value', 'silence', 'time', 'reading'] as const
