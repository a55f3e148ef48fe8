// How far the boards are worked out: that what is shown is older or a first layout while the solver works, what there is where
// the user stopped it, and the buttons to stop and to go on.

import type { Plan } from '../../../core/plan/index.ts';
import type { Solution, SolvedPlan } from '../../state/app-state.ts';
import { useApp, usePicked } from '../../state/react.ts';

/** What there is where the user stopped; the same on order, boards, sheets and everywhere else. */
function stoppedWords(last: SolvedPlan | null, plan: Plan | undefined): string {
  if (last === null || last.plan !== plan) return 'Stopped: the boards of this plan are not worked out.';
  switch (last.stage) {
    case 'first':
      return 'Stopped: a first layout is shown; better boards may be found.';
    case 'better': {
      const { stock } = last.solved.report;
      const sure = stock.filter(({ proved }) => proved).length;
      return `Stopped: the best boards found so far; ${sure} of ${stock.length} mouldings are proved least.`;
    }
    case 'boards':
      return 'Stopped: the boards are worked out; what they cost bought otherwise is not.';
    case 'whole':
      return 'Stopped: the boards are worked out.';
  }
}

function pendingWords(last: SolvedPlan | null, plan: Plan | undefined): string {
  if (last === null) return 'Laying out boards';
  if (last.plan !== plan) return 'Laying out boards anew; below are those from before';
  if (last.stage === 'first') return 'A first layout is shown; looking for better boards';
  if (last.stage === 'better') return 'The best boards so far are shown; looking for better ones';
  return 'Working out what it costs bought otherwise';
}

export function Standing() {
  const app = useApp();
  const solution: Solution = usePicked((state) => state.solution);
  const plan = usePicked((state) => state.open?.plan);
  switch (solution.state) {
    case 'pending':
      return (
        <p className="handover-standing row">
          <span>
            {pendingWords(solution.last, plan)}
            {solution.progress === null ? '…' : `: ${solution.progress.words}`}
          </span>
          <button
            type="button"
            title="Stop looking; the best boards found so far are kept"
            onClick={() => app.solving.stop()}
          >
            Stop
          </button>
        </p>
      );
    case 'stopped':
      return (
        <p className="handover-standing row">
          <span>{stoppedWords(solution.last, plan)}</span>
          <button
            type="button"
            title="Go on looking; what is shown stays until there is better"
            onClick={() => app.solving.ask()}
          >
            Go on
          </button>
        </p>
      );
    case 'failed':
      return (
        <p className="handover-standing row wrong">
          <span>{solution.message}</span>
          <button type="button" title="Lay out the boards once more" onClick={() => app.solving.ask()}>
            Try again
          </button>
        </p>
      );
    default:
      return <p className="handover-standing" />;
  }
}
