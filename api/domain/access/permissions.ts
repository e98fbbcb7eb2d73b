/** What a person is at a site, least first. */
export const roles = ['viewer', 'field', 'engineer', 'approver', 'administrator'] as const
export type Role = (typeof roles)[number]

/**
 * What can be done at a site. `read-approved`: what is published, provisional values marked as such; `read-all`: also
 * raw files, faults, field work, how values came about; `read-audit`: who changed what, and why; `add`: readings and
 * field work; `change-records`: verdicts, calibrations, layouts, and whatever else changes what readings mean;
 * `administer`: who may do all this.
 */
export const actions = [
  'read-approved',
  'read-all',
  'read-audit',
  'add',
  'change-records',
  'approve-levels',
  'approve-readings',
  'administer',
] as const
export type Action = (typeof actions)[number]

const permitted: Readonly<Record<Role, readonly Action[]>> = {
  viewer: ['read-approved'],
  field: ['read-approved', 'read-all', 'add'],
  engineer: ['read-approved', 'read-all', 'read-audit', 'add', 'change-records'],
  approver: [
    'read-approved',
    'read-all',
    'read-audit',
    'add',
    'change-records',
    'approve-levels',
    'approve-readings',
  ],
  administrator: [
    'read-approved',
    'read-all',
    'read-audit',
    'add',
    'change-records',
    'approve-levels',
    'approve-readings',
    'administer',
  ],
}

/** Whether a role may do something at the site for which it was given. */
export const roleMay = (role: Role, action: Action): boolean => permitted[role].includes(action)
