// A question with its answers. Escape and the closing button give no answer.

import { useApp } from '../../state/react.ts';
import { DialogBox } from '../kit/DialogBox.tsx';
import type { Asked } from './ask.ts';

export function Ask({ of }: { readonly of: unknown }) {
  const app = useApp();
  const { question, answer } = of as Asked;
  return (
    <DialogBox
      title={question.title}
      onClose={() => app.show(null)}
      foot={question.answers.map(({ id, words, main, loses }) => (
        <button
          key={id}
          type="button"
          className={main ? 'main' : loses ? 'loses' : undefined}
          data-first={main}
          onClick={() => answer(id)}
        >
          {words}
        </button>
      ))}
    >
      {question.words.map((each) => (
        <p key={each} className="files-said">
          {each}
        </p>
      ))}
    </DialogBox>
  );
}
