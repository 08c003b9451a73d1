"""Labels state phosphorus and potassium as oxides; these are the elements' shares of them by weight.

P2O5 holds 2 x 30.974 of 141.943 parts phosphorus, K2O 2 x 39.098 of 94.195 parts potassium
(atomic masses). The source prints them rounded, as 0.44 and 0.83.
"""

OXIDES_SOURCE = "UMN-SULIS-F1"
P_OF_P2O5 = 0.4364
K_OF_K2O = 0.8302
