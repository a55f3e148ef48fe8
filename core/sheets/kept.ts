// Answers that are worked out when they are first asked for and then kept: by whoever made them, never by a module.

/** The same answers, each worked out when it is first asked for. */
export function kept<Q, A>(answer: (question: Q) => A): (question: Q) => A {
  const known = new Map<Q, { readonly answer: A }>();
  return (question) => {
    const found = known.get(question) ?? { answer: answer(question) };
    known.set(question, found);
    return found.answer;
  };
}
