import { example } from "../example";
import { planView } from "../../fixtures/plan";
import { t } from "../../messages";
import WishList from "./WishList.svelte";

const wishes = planView.plans[0]?.wishes ?? [];

export const examples = [
  example(WishList, "three wishes", { wishes }, ["8 chances in 10"]),
  example(
    WishList,
    "past and hopeless",
    {
      wishes: wishes.map((wish, index) => ({
        ...wish,
        over: index === 0,
        probability: 0,
        probability_text: "less than 1 in 20",
      })),
    },
    [t.season.wishPast],
  ),
  example(WishList, "none", { wishes: [] }, [t.season.noWishes]),
];
