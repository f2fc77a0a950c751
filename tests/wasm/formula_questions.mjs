// Questions for one formula, made from the description that the engine gives of it: each input is moved through its
// range while the others rest, and every exclusive choice of inputs and every word of a choice is tried.

// A few values of one input; the first is its resting value.
function valuesOf(input) {
  switch (input.kind) {
    case 'number': {
      const range = input.fitted ?? input.possible ?? { low: 1, high: 10 };
      const at = (share) => range.low + share * (range.high - range.low);
      const values = [0.43, 0, 0.19, 0.71, 1].map(at);
      if (input.possible) values.push(input.possible.low, input.possible.high, input.possible.high + 1);
      return values;
    }
    case 'flag':
      return [true, false];
    case 'choice':
      return input.choices;
    case 'series':
      return ['1, 2.5, 2, 4, 3.5, 3, 2, 1', '5', '1, 1, 1, 1'];
    default:
      return input.default_text ? [input.default_text] : ['1'];
  }
}

// Of inputs that exclude each other one is given at a time.
function choicesOfExclusive(inputs) {
  const groups = new Map();
  for (const input of inputs.filter((each) => each.one_of)) {
    groups.set(input.one_of, [...(groups.get(input.one_of) ?? []), input]);
  }
  let sets = [inputs.filter((each) => !each.one_of)];
  for (const group of groups.values()) {
    sets = sets.flatMap((set) => group.map((input) => [...set, input]));
  }
  return sets;
}

export function questionsForFormula(formula) {
  const questions = [];
  const ask = (inputs) => questions.push(JSON.stringify({ calc: formula.name, inputs }));
  for (const set of choicesOfExclusive(formula.inputs)) {
    const rest = Object.fromEntries(set.map((input) => [input.name, valuesOf(input)[0]]));
    ask(rest);
    ask(Object.fromEntries(set.filter((input) => input.required).map((input) => [input.name, rest[input.name]])));
    for (const input of set) {
      for (const value of valuesOf(input).slice(1)) ask({ ...rest, [input.name]: value });
    }
    // Words together: every species with every stage, say.
    const words = set.filter((input) => input.kind === 'choice');
    if (words.length > 1) {
      let pairs = [{}];
      for (const input of words.slice(0, 3)) {
        pairs = pairs.flatMap((pair) => input.choices.map((choice) => ({ ...pair, [input.name]: choice })));
      }
      pairs.slice(0, 400).forEach((pair) => ask({ ...rest, ...pair }));
    }
  }
  return questions;
}
