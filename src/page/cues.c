/* One short cue for each focus, one question for the video, and what was seen in
 * plain words: common practice, no source. Nerves have no words on a card. */
#include "page/card_parts.h"

static const struct cue {
    enum word_id treats;
    const char *cue, *question;
    const char *seen; /* NULL: is never shown to a player */
} cues[] = {
    {W_td, WORDS("Toss it higher."), WORDS("how high is your hand when the ball leaves it?"),
     WORDS("toss too low")},
    {W_tu, WORDS("Toss it a little lower."), WORDS("how long do you wait for the ball?"),
     WORDS("toss too high")},
    {W_tl, WORDS("Toss it in front of your shoulder."),
     WORDS("where would the toss come down if you let it drop?"), WORDS("toss to the left")},
    {W_tr, WORDS("Toss it in front of your shoulder."),
     WORDS("where would the toss come down if you let it drop?"), WORDS("toss to the right")},
    {W_tn, WORDS("Toss it further in front."),
     WORDS("where would the toss come down if you let it drop?"), WORDS("toss over the head")},
    {W_tf, WORDS("Toss it closer to you."),
     WORDS("where would the toss come down if you let it drop?"), WORDS("toss too far forward")},
    {W_tb, WORDS("Lift it with a long arm."),
     WORDS("is your elbow straight when the ball leaves your hand?"),
     WORDS("toss with a bent arm")},
    {W_as, WORDS("All your steps, every time."), WORDS("how many steps do you take?"),
     WORDS("fewer steps than yours")},
    {W_al, WORDS("Your own steps, no more."), WORDS("how many steps do you take?"),
     WORDS("more steps than yours")},
    {W_aw, WORDS("Hands close past your hips."), WORDS("where are your hands before you jump?"),
     WORDS("arms spread wide")},
    {W_an, WORDS("Swing both arms."), WORDS("how far back do your hands swing?"),
     WORDS("arms not swung")},
    {W_je, WORDS("Wait for the ball, then jump."),
     WORDS("where is the ball when your feet leave the floor?"), WORDS("jumped early")},
    {W_jl, WORDS("Jump a moment sooner."),
     WORDS("where is the ball when your feet leave the floor?"), WORDS("jumped late")},
    {W_js, WORDS("Make the last step long."), WORDS("which of your steps is the longest?"),
     WORDS("short last step")},
    {W_jb, WORDS("Jump from just behind the line."),
     WORDS("how far behind the line are your feet when you jump?"),
     WORDS("took off far behind the line")},
    {W_hb, WORDS("Hit it with a long arm."), WORDS("is your elbow straight when you hit the ball?"),
     WORDS("bent arm at the hit")},
    {W_hs, WORDS("Swing through the ball."), WORDS("is your arm fastest at the ball?"),
     WORDS("arm slowed before the hit")},
    {W_hw, WORDS("Hand over the top of the ball."),
     WORDS("where do your fingers point after the hit?"), WORDS("stiff wrist")},
    {W_hd, WORDS("Eyes on the ball."), WORDS("where do you look when you hit it?"),
     WORDS("eyes off the ball")},
    {W_hr, WORDS("Turn your trunk into the hit."), WORDS("does your chest turn before your arm?"),
     WORDS("rigid trunk")},
    {W_hn, WORDS("Hit it in front of you."), WORDS("where is the ball when you hit it?"),
     WORDS("ball not in front")},
    {W_ho, WORDS("Hit the middle of the ball."), WORDS("where does your hand meet the ball?"),
     WORDS("off-centre hit")},
    {W_hp, WORDS("Firm hand, no spin."), WORDS("does the ball turn in the air?"),
     WORDS("a float that spun")},
    {W_nr, WORDS("Take your time."), WORDS("what do you do between the whistle and the toss?"),
     WORDS("routine skipped")},
    {W_nn, WORDS("Take your time."), WORDS("what do you do between the whistle and the toss?"),
     NULL},
    {W_net, WORDS("Higher over the net."),
     WORDS("how far above the tape does a good one of yours pass?"), WORDS("into the net")},
    {W_long, WORDS("Hand over the top of the ball."), WORDS("where do you hit the ball?"),
     WORDS("long")},
    {W_left, WORDS("Hips and hand to your target."), WORDS("where does your hand point after the hit?"),
     WORDS("wide left")},
    {W_right, WORDS("Hips and hand to your target."),
     WORDS("where does your hand point after the hit?"), WORDS("wide right")},
    {W_foot, WORDS("Feet behind the line."), WORDS("where are your feet when you hit the ball?"),
     WORDS("foot fault")},
    {W_antenna, WORDS("Between the antennas."), WORDS("where does your hand point after the hit?"),
     WORDS("into the antenna")},
    {W_ceiling, WORDS("Toss and hit below the roof."), WORDS("how high is your toss?"),
     WORDS("into the ceiling")},
    {W_clock, WORDS("Be ready at the whistle."),
     WORDS("what do you do between the whistle and the toss?"), WORDS("over 8 seconds")},
    {W_drop, WORDS("Toss when you are ready."),
     WORDS("what do you do between the whistle and the toss?"), WORDS("ball not hit")},
    {W_in3, WORDS("Make them move."), WORDS("how far do they have to move for your serve?"),
     WORDS("passed well")},
};

static const struct cue *find(enum word_id treats) {
    for (size_t i = 0; i < sizeof cues / sizeof *cues; i++)
        if (cues[i].treats == treats)
            return &cues[i];
    return NULL;
}

const char *page_cue(enum word_id treats) {
    const struct cue *c = find(treats);
    return c ? c->cue : NULL;
}

const char *page_cue_question(enum word_id treats) {
    const struct cue *c = find(treats);
    return c ? c->question : NULL;
}

const char *page_cue_seen(enum word_id treats) {
    const struct cue *c = find(treats);
    return c ? c->seen : NULL;
}
