"""What published guidelines advise for a week of training, each figure with its source and how it came to us.

They are advice for people in general. Where nothing stands here, nothing is advised.
"""

from __future__ import annotations

from fractions import Fraction

# Days a week with work for all major muscles, at moderate or greater effort.
# World Health Organization, 2020 guidelines on physical activity (Bull et al., Br J Sports Med 2020;54:1451-1462; read
# in a summary); Physical Activity Guidelines for Americans, 2nd ed. 2018 (read in table 1 of PMC8802999); American Heart
# Association (Paluch et al., Circulation 2024;149(3):e217-e231; read in its list of top things to know); the ACSM's 2-3 days
# for beginners (Med Sci Sports Exerc 2009;41(3):687-708; read in a summary).
STRENGTH_DAYS = 2

# Minutes a week of resistance training from which the largest reduction of risk is found: 30 to 60. American Heart
# Association (as above; read in the key points of the American College of Cardiology).
RESISTANCE_MINUTES = 30

# Days a week with varied work that holds functional balance and strength, and the age from which that is advised.
# World Health Organization 2020 (as above; read in a summary, and in a response in the same journal, 54/24/1451). The
# American guidelines of 2018 ask for balance work at that age, too, and give no number of days (read as above).
BALANCE_DAYS = 3
OLDER = 65

# The least and the largest step of a load: 2-10 %, when one or two repetitions over the desired number were done, on two
# consecutive sessions. American College of Sports Medicine 2009 (as above; the step read in a summary, the two sessions in
# its evidence table). With coarse weights even the smallest step is larger: 1 kg on 5 kg is 20 %. Then repetitions grow
# first.
LARGEST_STEP = Fraction(10, 100)
LEAST_STEP = Fraction(2, 100)  # which counts where loads can be made finer than that

# Minutes a week of movement at moderate effort, from the least to where more adds little: 150-300, or half as many at
# vigorous effort, or a mix in which a vigorous minute counts twice. World Health Organization 2020, adults of 18 and over (as
# above; the minutes read in oecd.org, "Step Up!" 2023, chapter 1; the mix in a guide at wis.it.com, secondary).
MOVING_MINUTES = (150, 300)

# From which speed on walking is of moderate effort (3 MET), and of vigorous effort (6 MET), in metres a second: 2.5 and 4.5
# miles an hour, which are 3.0 and 7.0 MET. Compendium of Physical Activities, codes 17170 and 17230 (Ainsworth et al., Med Sci
# Sports Exerc 2011;43(8):1575-1581, read in a conversion of the authors' table; Herrmann et al., J Sport Health Sci
# 2024;13(1):6-12, secondary); the bands at aafp.org, afp 2017/0401 p425 (read). It holds for ages 19 to 59: for older people
# there is a compendium of its own, whose figures were not found.
MILE_AN_HOUR = Fraction(1609344, 1000 * 3600)
MODERATE_WALK = MILE_AN_HOUR * Fraction(5, 2)
VIGOROUS_WALK = MILE_AN_HOUR * Fraction(9, 2)
COMPENDIUM_AGES = (19, 59)


def moderate_minutes(moderate: Fraction, vigorous: Fraction) -> Fraction:
    """Minutes of moderate effort, and those of vigorous effort as what they count for: twice (source above)."""
    return moderate + 2 * vigorous


# By how many percent of the normal one the volume is lowered in the first weeks after a break of two weeks or more. Joint
# consensus of two American associations of strength coaches, written for college athletes (Caterisano et al., Strength Cond
# J 2019;41(3):1-23; that it sets upper limits for the first two to four weeks after such a break read in its abstract,
# the name of the rule read in a page of 2025, what its figures mean from memory: of the volume of conditioning). Nothing
# of the kind is published for older people: on a sheet these are the coach's choice.
VOLUME_LESS_AFTER_BREAK = (50, 30, 20, 10)
BREAK_WEEKS = 2  # the shortest break that this speaks of

# Weeks without training that strength outlasts, in older and in younger people; after them older people lost 13 % and younger
# ones 6 % in 19 weeks more (Lemmer et al., Med Sci Sports Exerc 2000;32(8):1505-1512; read in PubMed).
STRENGTH_LASTS = 12
