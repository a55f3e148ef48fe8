// The lines of trim in the order they are told.

import type { TrimLine } from '../../../core/plan/index.ts';

export const LINE_ORDER: readonly TrimLine[] = ['base', 'shoe', 'chairRail', 'pictureRail', 'crown'];
