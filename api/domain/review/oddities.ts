/** What can be odd about readings, each a question of its own: what was read, what was not, and when. */
export const oddities = ['value', 'silence', 'time'] as const
